// Whether closed cards go into their envelopes, and what the posts say to them.
#include "solver/body/mail.h"

#include <algorithm>

#include "model/envelopes.h"
#include "model/posts.h"
#include "tests/catch.h"

using namespace evenmat;

namespace {

Rational part(long long over, long long under) { return Rational(over) / Rational(under); }
const Rational hair = part(1, 1000);
bool says(const std::string& text, std::string_view words) { return text.find(words) != std::string::npos; }

// A flat card of one thickness: half way round it is its side and its thickness.
ClosedCard flat(const Rational& width, const Rational& height, const Rational& thickness,
                const Rational& grams = 1) {
  ClosedCard closed;
  closed.front = closed.over_all = {width, height};
  closed.thickness = thickness;
  closed.thickest = {{"the front", thickness, ThickPart::Kind::leaf}};
  closed.girth_across = width + thickness;
  closed.girth_down = height + thickness;
  closed.grams = grams;
  return closed;
}

Card mailed(const std::vector<std::string>& into, const std::vector<std::string>& by = {},
            Unit unit = Unit::inch, const Rational& ease = 0) {
  Card card;
  card.unit = unit;
  for (const std::string& envelope : into) card.mail.envelopes.push_back({envelope, {}});
  for (const std::string& post : by) card.mail.posts.push_back({post, {}});
  card.mail.ease = ease;
  return card;
}

MailNote first(const Card& card, const ClosedCard& closed) {
  const std::vector<MailNote> notes = mail_of(card, closed);
  REQUIRE_FALSE(notes.empty());
  INFO(notes.front().says);
  return notes.front();
}

// What a post says to a card in an envelope of this size, of which the thickness and weight are the letter's.
MailNote letter(const std::string& post, const Rational& length, const Rational& height,
                const Rational& thickness, const Rational& grams) {
  const Unit unit = read_post(post).post->unit;
  const Rational wall = unit == Unit::inch ? part(4, 1000) : part(1, 10);
  const Rational square = convert(length, unit, Unit::millimetre) * convert(height, unit, Unit::millimetre);
  const Rational paper = square / 1000000 * part(22, 10) * 90;
  const std::string size = fraction_text(length) + " x " + fraction_text(height);
  const Card card = mailed({size}, {post}, unit);
  const std::vector<MailNote> notes = mail_of(card, flat(1, 1, thickness - 2 * wall, grams - paper));
  REQUIRE(notes.size() == 2);
  return notes.back();
}

}  // namespace

TEST_CASE("a card goes in when half way round it is the envelope less the ease, and not a thousandth more") {
  const Card card = mailed({"us A2"}, {}, Unit::inch, part(1, 16));
  const Rational across = part(35, 8) - part(1, 16);
  const Rational down = part(23, 4) - part(1, 16);
  const Rational thin = part(1, 100);
  CHECK(first(card, flat(across - thin, down - thin, thin)).fits);
  CHECK_FALSE(first(card, flat(across - thin + hair, down - thin, thin)).fits);
  CHECK_FALSE(first(card, flat(across - thin, down - thin + hair, thin)).fits);
  CHECK_FALSE(first(card, flat(across - thin, down - thin, thin + hair)).fits);
}

TEST_CASE("a card lying down goes into an envelope that stands") {
  const Card card = mailed({"us A2"}, {}, Unit::inch, part(1, 16));
  const Rational across = part(35, 8) - part(1, 16);
  const Rational down = part(23, 4) - part(1, 16);
  CHECK(first(card, flat(down, across, 0)).fits);
  CHECK_FALSE(first(card, flat(down + hair, across, 0)).fits);
  CHECK_FALSE(first(card, flat(down, across + hair, 0)).fits);
}

TEST_CASE("a card that goes in hears how much is to spare") {
  const MailNote note =
      first(mailed({"US a2"}, {}, Unit::inch, part(1, 16)), flat(part(17, 4), part(11, 2), part(1, 64)));
  CHECK(note.fits);
  CHECK(note.asked);
  CHECK(note.kind == MailNote::Kind::envelope);
  CHECK(note.name == "US a2");
  CHECK(note.source == "common practice of the US trade");
  CHECK(
      note.says ==
      "It goes into us A2 (4 3/8 x 5 3/4 in) with 3/64 in to spare beside the 1/16 in of ease: half way "
      "round "
      "it measures 4 17/64 in across and 5 33/64 in down, and the envelope takes 4 5/16 in and 5 11/16 in.");
}

TEST_CASE("a card that hardly goes in is told so") {
  const Card card = mailed({"4 x 6"}, {}, Unit::inch, part(1, 16));
  CHECK(
      says(first(card, flat(part(63, 16), 5, 0)).says,
           "It just goes into the envelope of 4 x 6 in, with nothing to spare beside the 1/16 in of ease."));
  CHECK(says(first(card, flat(part(63, 16) - hair, 5, 0)).says, "with less than 1/64 in to spare"));
}

TEST_CASE("a card that does not go in hears by how much, why, and what takes it") {
  const Card card = mailed({"us A2"}, {}, Unit::inch, part(1, 16));
  ClosedCard closed = flat(part(17, 4), part(11, 2), part(5, 64));
  const MailNote thick = first(card, closed);
  CHECK_FALSE(thick.fits);
  CHECK(thick.says ==
        "It does not go into us A2 (4 3/8 x 5 3/4 in): half way round it measures 4 21/64 in across and the "
        "envelope takes 4 5/16 in, which is 1/64 in too much beside the 1/16 in of ease. Its thickness is "
        "what is "
        "too much: flat it would go in. us A6 (4 3/4 x 6 1/2 in) takes it.");

  closed = flat(part(17, 4), part(11, 2), 0);
  closed.over_all.width = closed.girth_across = part(9, 2);
  CHECK(says(first(card, closed).says, "What reaches past its edges is what is too much."));
  CHECK(says(first(card, flat(5, 7, 0)).says,
             "too large for it, however thin. us A7 (5 1/4 x 7 1/4 in) takes it."));
  CHECK_FALSE(says(first(card, flat(20, 20, 0)).says, "takes it."));
}

TEST_CASE("what is rounded for the sentence never speaks against the answer") {
  for (int step = -40; step <= 40; ++step) {
    const Rational across = 4 + Rational(step) / 1234567;
    const MailNote note = first(mailed({"4 x 6"}), flat(across, 5, 0));
    INFO(note.says);
    CHECK(note.fits == (step <= 0));
    CHECK(says(note.says, "measures") == (step > 0));
    CHECK_FALSE(says(note.says, " 0 in"));
    if (step > 0) CHECK(says(note.says, "measures about 4 1/64 in across and the envelope takes 4 in"));
  }
}

TEST_CASE("inch cards go into metric envelopes and metric cards into inch ones") {
  CHECK(first(mailed({"iso C6"}), flat(part(570, 127), part(810, 127), 0)).fits);
  CHECK_FALSE(first(mailed({"iso C6"}), flat(part(570, 127) + hair, part(810, 127), 0)).fits);
  CHECK(first(mailed({"us A7"}, {}, Unit::millimetre), flat(part(13335, 100), part(18415, 100), 0)).fits);
  CHECK_FALSE(first(mailed({"us A7"}, {}, Unit::millimetre), flat(part(13335, 100) + hair, 180, 0)).fits);
}

TEST_CASE("papers of unstated thickness are told to count as nothing") {
  ClosedCard closed = flat(4, 5, 0);
  closed.no_thickness = {"linen"};
  CHECK(says(first(mailed({"us A2"}), closed).says,
             "Nothing is said of how thick linen is, so it counts as nothing."));
  closed.no_thickness = {"linen", "kraft", ""};
  CHECK(says(
      first(mailed({"us A2"}), closed).says,
      "Nothing is said of how thick linen, kraft and things without a paper are, so they count as nothing."));
}

TEST_CASE("where no envelope is asked for, the three smallest that take the card are told") {
  const std::vector<MailNote> notes = mail_of(mailed({}), flat(part(17, 4), part(11, 2), 0));
  REQUIRE(notes.size() == 3);
  CHECK(notes[0].name == "us A2");
  CHECK(notes[1].name == "iso C6");
  CHECK(notes[2].name == "us square 5 1/2");
  for (const MailNote& note : notes) {
    CHECK(note.fits);
    CHECK_FALSE(note.asked);
  }
  CHECK(mail_of(mailed({}), flat(100, 100, 0)).empty());
}

TEST_CASE("of no card that goes into a standard envelope is a smaller one left out") {
  for (int eighths = 16; eighths < 80; eighths += 3) {
    const ClosedCard closed = flat(part(eighths, 8), part(eighths + 5, 8), part(1, 50));
    const std::vector<MailNote> notes = mail_of(mailed({}), closed);
    for (const Envelope& envelope : envelopes()) {
      const bool fits = first(mailed({envelope.name}), closed).fits;
      const bool told = std::any_of(notes.begin(), notes.end(),
                                    [&](const MailNote& note) { return note.name == envelope.name; });
      INFO(envelope.name << " " << eighths);
      if (told) CHECK(fits);
      if (fits && !told) CHECK(notes.size() == 3);
    }
  }
}

TEST_CASE("each post takes a letter at its limits and none a thousandth past them") {
  for (const PostRules& post : posts()) {
    INFO(post.name);
    const bool inches = post.unit == Unit::inch;
    const Rational thin = inches ? part(1, 20) : Rational(1);
    const Rational length = inches ? 7 : 180;
    const Rational height = inches ? 5 : 120;
    const Rational grams = 15;
    const auto fits = [&](const Rational& l, const Rational& h, const Rational& t, const Rational& g) {
      return letter(post.name, l, h, t, g).fits;
    };
    CHECK(fits(length, height, thin, grams));
    CHECK(fits(*post.length.most, height, thin, grams));
    CHECK_FALSE(fits(*post.length.most + hair, height, thin, grams));
    CHECK(fits(*post.length.most, *post.height.most, thin, grams));
    CHECK_FALSE(fits(*post.length.most, *post.height.most + hair, thin, grams));
    CHECK(fits(length, height, *post.thickness.most, grams));
    CHECK_FALSE(fits(length, height, *post.thickness.most + hair, grams));
    CHECK(fits(length, height, thin, *post.grams));
    CHECK_FALSE(fits(length, height, thin, *post.grams + hair));
    if (post.length.least) {
      CHECK(fits(*post.length.least, *post.height.least, thin, grams));
      CHECK_FALSE(fits(*post.length.least - hair, *post.height.least, thin, grams));
      CHECK_FALSE(fits(*post.length.least, *post.height.least - hair, thin, grams));
    }
  }
}

TEST_CASE("a letter too thick, too long or too heavy hears by how much") {
  CHECK(says(letter("upu", 200, 120, part(63, 10), 10).says,
             "it is 6.3 mm thick and 5 mm is the most, 1.3 mm too much"));
  CHECK(says(letter("usps", 12, 6, part(1, 20), 10).says,
             "it is 12 in long and 11 1/2 in is the most, 1/2 in too much"));
  CHECK(says(letter("canada post", 200, 120, 1, part(1013, 20)).says,
             "it is about 50.7 g in weight and 50 g is the most, about 0.7 g too much"));
  CHECK(says(letter("usps", 5, 3, part(1, 20), 10).says,
             "it is 3 in high and 3 1/2 in is the least, 1/2 in too little"));
  const MailNote both = letter("upu", 250, 170, 1, 10);
  CHECK(says(both.says, "long"));
  CHECK(says(both.says, "high"));
}

TEST_CASE("the letter is judged by its envelope, whose paper counts in") {
  const MailNote note = mail_of(mailed({"us A2"}, {"usps"}), flat(4, 5, part(1, 32), 10)).back();
  CHECK(note.fits);
  CHECK_FALSE(note.by_hand);
  CHECK(note.kind == MailNote::Kind::post);
  // 4 3/8 x 5 3/4 in is 111.125 x 146.05 mm; 2.2 times that at 90 g/m2 is 3.21 g.
  CHECK(note.says ==
        "A letter in us A2 (4 3/8 x 5 3/4 in): about 0.04 in thick and about 13.3 g. That counts the "
        "envelope, two sides of about 0.004 in and about 3.3 g of paper (common practice). By "
        "Domestic Mail Manual 101, sections 1.1 and 1.2 (1.2d as quoted in 2016) (2023-07-09). Rules change: "
        "check with your post office.");
}

TEST_CASE("a post judges the first envelope asked for that takes the card") {
  const ClosedCard closed = flat(5, 7, part(1, 32));
  CHECK(says(mail_of(mailed({"us A2", "us A7", "us A10"}, {"usps"}), closed).back().says, "in us A7"));
  CHECK(says(mail_of(mailed({}, {"usps"}), closed).back().says, "in us A7"));
  CHECK(says(mail_of(mailed({}, {"upu"}), closed).back().says, "in iso C5"));
  CHECK(says(mail_of(mailed({"us A2"}, {"usps"}), closed).back().says,
             "without an envelope, as none of those asked for takes it"));
  CHECK(says(mail_of(mailed({}, {"usps"}), flat(30, 30, 0)).back().says,
             "without an envelope, as no standard one takes it"));
}

TEST_CASE("a square card goes by hand in one post, not at all in another, and like any card in the others") {
  const std::vector<MailNote> notes =
      mail_of(mailed({"4 3/4 x 4 3/4"}, {"usps"}), flat(4, 4, part(1, 32), 5));
  CHECK_FALSE(notes.back().fits);  // shorter than the 5 in a letter is at least
  const MailNote usps = letter("usps", 6, 6, part(1, 20), 10);
  CHECK(usps.fits);
  CHECK(usps.by_hand);
  CHECK(says(usps.says, "it is just as long as it is high and 1.3 to 2.5 times is asked"));
  CHECK(says(usps.says, read_post("usps").post->by_hand));
  const MailNote german = letter("deutsche post", 125, 125, 1, 10);
  CHECK_FALSE(german.fits);
  CHECK(says(german.says, "it is just as long as it is high and at least 1.4 times is asked"));
  for (const char* post : {"upu", "canada post", "royal mail"}) {
    const MailNote note = letter(post, 150, 150, 1, 10);
    INFO(note.says);
    CHECK(note.fits);
    CHECK_FALSE(note.by_hand);
  }
}

TEST_CASE("a letter of 1.3 or 2.5 times its height goes by machine and one just past that by hand") {
  const Rational thin = part(1, 20);
  CHECK_FALSE(letter("usps", part(13, 2), 5, thin, 10).by_hand);
  CHECK(letter("usps", part(13, 2) - hair, 5, thin, 10).by_hand);
  CHECK(says(letter("usps", part(13, 2) - hair, 5, thin, 10).says, "about 1.29 times as long as it is high"));
  CHECK_FALSE(letter("usps", 10, 4, thin, 10).by_hand);
  CHECK(letter("usps", 10 + hair, 4, thin, 10).by_hand);
  CHECK(says(letter("usps", 10 + hair, 4, thin, 10).says, "about 2.51 times as long as it is high"));
  CHECK(letter("deutsche post", 140, 100, 1, 10).fits);
  CHECK_FALSE(letter("deutsche post", 140, 100 + hair, 1, 10).fits);
}

TEST_CASE("a thin card goes by hand where its size asks for more, and too thin a one does not go") {
  const auto bare = [](const Rational& width, const Rational& height, const Rational& thickness) {
    return mail_of(mailed({"1 x 1"}, {"usps"}), flat(width, height, thickness)).back();
  };
  CHECK_FALSE(bare(4, 6, part(8, 1000)).by_hand);
  CHECK(bare(4, 6 + hair, part(8, 1000)).by_hand);
  CHECK_FALSE(bare(4, 6 + hair, part(9, 1000)).by_hand);
  CHECK(bare(part(17, 4) + hair, 6, part(8, 1000)).by_hand);
  CHECK(bare(4, 6, part(7, 1000)).fits);
  CHECK_FALSE(bare(4, 6, part(7, 1000) - hair).fits);
}

TEST_CASE("a card whose paper's thickness nobody states is never called too thin") {
  ClosedCard closed = flat(4, 7, 0);
  closed.no_thickness = {"linen"};
  const MailNote note = mail_of(mailed({"1 x 1"}, {"usps"}), closed).back();
  CHECK(note.fits);
  CHECK_FALSE(note.by_hand);
  CHECK(says(note.says, "how thick linen is"));
}

TEST_CASE("layers of 1/16 in over the base are even and a thousandth more is a lump") {
  ClosedCard closed = flat(4, 5, part(1, 20));
  closed.thickest.push_back({"boat", part(1, 16), ThickPart::Kind::layer});
  CHECK_FALSE(mail_of(mailed({"us A2"}, {"usps"}), closed).back().by_hand);
  closed.thickest.back().thickness += hair;
  const MailNote lump = mail_of(mailed({"us A2"}, {"usps"}), closed).back();
  CHECK(lump.fits);
  CHECK(lump.by_hand);
  CHECK(says(lump.says,
             "about 0.064 in more than its base at one place (more than 1/16 in counts as uneven, common"));
  CHECK_FALSE(mail_of(mailed({"us A2"}, {"upu"}), closed).back().by_hand);
}

TEST_CASE("foam makes a lump, however thin, and thick paper of the base does not") {
  ClosedCard closed = flat(4, 5, part(1, 10));
  CHECK_FALSE(mail_of(mailed({"us A2"}, {"usps"}), closed).back().by_hand);
  closed.thickest.push_back({"the foam under boat", part(1, 32), ThickPart::Kind::foam});
  const MailNote note = mail_of(mailed({"us A2"}, {"usps"}), closed).back();
  CHECK(note.by_hand);
  CHECK(says(note.says, "foam counts as uneven"));
}

TEST_CASE("papers of unstated weight are told") {
  ClosedCard closed = flat(4, 5, part(1, 50));
  closed.no_weight = {"linen"};
  CHECK(says(mail_of(mailed({"us A2"}, {"usps"}), closed).back().says,
             "Nothing is said of how heavy linen is, so it counts as nothing."));
  closed.no_thickness = {"linen"};
  CHECK(says(mail_of(mailed({"us A2"}, {"usps"}), closed).back().says,
             "Nothing is said of how thick and heavy linen is, so it counts as nothing."));
}

TEST_CASE("every post names its rules and their date, says once to check, and no price") {
  std::vector<std::string> all;
  for (const PostRules& post : posts()) all.push_back(post.name);
  for (const ClosedCard& closed : {flat(4, 5, part(1, 50)), flat(4, 4, 1), flat(30, 40, 3, 500)}) {
    const std::vector<MailNote> notes = mail_of(mailed({"us A2"}, all), closed);
    REQUIRE(notes.size() == all.size() + 1);
    for (std::size_t i = 1; i < notes.size(); ++i) {
      const MailNote& note = notes[i];
      INFO(note.says);
      const std::string check = "check with your post office.";
      CHECK(note.says.ends_with(check));
      CHECK(note.says.find(check) == note.says.rfind(check));
      CHECK(says(note.says, posts()[i - 1].source));
      CHECK(says(note.says, posts()[i - 1].date));
      CHECK(says(note.source, posts()[i - 1].date));
      for (const char* money : {"$", "\u00A3", "\u20AC", "\u00A2", "cent"})
        CHECK_FALSE(says(note.says, money));
    }
  }
}
