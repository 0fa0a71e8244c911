#include "model/posts.h"

#include "model/words.h"

namespace evenmat {
namespace {

Rational part(int over, int under) { return Rational(over) / under; }

// Article 14 of the Universal Postal Convention (Doha, 2012) leaves the limits of small letters (P) to the
// Regulations. Those could not be read; their figures are from memory, as
// is the year from which formats counted.
PostRules upu() {
  PostRules post;
  post.name = "upu";
  post.format = "small letter (P)";
  post.source =
      "Universal Postal Union, Regulations to the Convention; figures not checked against their text";
  post.date = "2018, from memory";
  post.length = {Rational(140), Rational(245)};
  post.height = {Rational(90), Rational(165)};
  post.thickness.most = 5;
  post.grams = 100;
  return post;
}

// 1.1 and 1.2a were read in a copy of the edition named. It points to 1.2f, which still stood; 1.2d and f
// were read as quoted in August 2016. What is lumpy there is what pens, keys or coins do to a letter.
PostRules usps() {
  PostRules post;
  post.name = "usps";
  post.format = "letter";
  post.source = "Domestic Mail Manual 101, sections 1.1 and 1.2 (1.2d as quoted in 2016)";
  post.date = "2023-07-09";
  post.unit = Unit::inch;
  post.length = {Rational(5), part(23, 2)};
  post.height = {part(7, 2), part(49, 8)};
  post.thickness = {part(7, 1000), part(1, 4)};
  // 3 1/2 oz of 1/16 lb; 1 lb = 453.59237 g (International yard and pound agreement, 1959).
  post.grams = part(7, 2) / 16 * Rational(45359237) / 100000;
  post.ratio = {part(13, 10), part(5, 2)};
  post.thin = PostRules::Thin{Rational(6), part(17, 4), part(9, 1000)};
  post.by_hand =
      "A letter that is less than 1.3 or more than 2.5 times as long as it is high, uneven in thickness, or "
      "too "
      "thin for its size is nonmachinable, for which the post asks more.";
  return post;
}

// Read in a copy, without a date, of the post's own page. Nothing there speaks of squares.
PostRules canada_post() {
  PostRules post;
  post.name = "canada post";
  post.format = "standard Lettermail";
  post.source = "Canada Post, Lettermail, page \"Size requirements\"";
  post.date = "undated copy, like a listing of 2022-01-10";
  post.length = {Rational(140), Rational(245)};
  post.height = {Rational(90), Rational(156)};
  post.thickness = {part(18, 100), Rational(5)};
  post.grams = 50;
  return post;
}

// Read in a copy, without a date, of the post's own page, which names no least size and speaks of no squares.
PostRules royal_mail() {
  PostRules post;
  post.name = "royal mail";
  post.format = "Letter";
  post.source = "Royal Mail, page \"Size formats and weights - UK\", which names no least size";
  post.date = "undated copy, formats of 2006-08-21";
  post.length.most = 240;
  post.height.most = 165;
  post.thickness.most = 5;
  post.grams = 100;
  return post;
}

// The post's own page could not be read; newspapers and stationers repeat its limits alike.
PostRules deutsche_post() {
  PostRules post;
  post.name = "deutsche post";
  post.format = "Standardbrief";
  post.source = "Deutsche Post, formats of letters, as newspapers report them";
  post.date = "2025-02-12";
  post.length = {Rational(140), Rational(235)};
  post.height = {Rational(90), Rational(125)};
  post.thickness.most = 5;
  post.grams = 20;
  post.ratio.least = part(14, 10);
  return post;
}

}  // namespace

const std::vector<PostRules>& posts() {
  static const std::vector<PostRules> all{upu(), usps(), canada_post(), royal_mail(), deutsche_post()};
  return all;
}

PostReading read_post(std::string_view text) {
  const std::string name = plain_name(text);
  std::vector<std::string> all;
  for (const PostRules& post : posts()) {
    if (post.name == name) return {&post, {}};
    all.push_back(post.name);
  }
  if (name.empty()) return {nullptr, "A post needs a name: " + either(all) + "."};
  return {nullptr, in_quotes(trimmed(text)) + " is not a post whose rules are known here." +
                       offer(name, all) + " Write one of " + either(all) + "."};
}

}  // namespace evenmat
