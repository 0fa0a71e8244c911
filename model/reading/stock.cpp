#include "model/envelopes.h"
#include "model/number_scan.h"
#include "model/paper_weight.h"
#include "model/posts.h"
#include "model/reading/parts.h"
#include "model/words.h"

namespace evenmat::reading {
namespace {

constexpr int most_sheets = 1'000'000;

// A length, or `11 pt`: thousandths of an inch, as paper packets state it.
void read_thickness(Table& table, const Value& value, Paper& paper, Context& context) {
  const auto as_length = [&] { paper.thickness = table.length("thickness", Bound::positive); };
  const Entry* entry = value.find("thickness");
  if (entry == nullptr || entry->value.kind != Value::Kind::text) return as_length();
  const std::string small = small_letters(trimmed(entry->value.text));
  const NumberScan points = scan_number(small, Unit::inch);
  if (points.names_unit || !points.trouble.empty() ||
      trimmed(std::string_view(small).substr(points.bytes)) != "pt" || points.value <= 0)
    return as_length();
  table.take("thickness");
  paper.thickness =
      Stated<Rational>{convert(Rational(points.value / 1000), Unit::inch, context.unit), entry->value.spot};
  paper.thickness_words = trimmed(entry->value.text);
}

void read_weight_of(Table& table, Paper& paper, Context& context) {
  const Entry* entry = table.take("weight");
  if (entry == nullptr) return;
  if (entry->value.kind != Value::Kind::text) {
    context.mistake(
        entry->value.spot,
        R"(A weight says in what it is weighed. Write it between quotes, like "216 gsm" or "80 lb cover".)");
    return;
  }
  const auto text = table.text("weight");
  if (!text) return;
  const WeightReading weight = read_weight(text->value);
  if (!weight.grams_per_square_metre) return context.mistake(text->spot, weight.trouble);
  paper.grams_per_square_metre = Stated<Rational>{*weight.grams_per_square_metre, text->spot};
  paper.weight_words = trimmed(text->value);
}

Name read_name(Table& table, const Value& value, const char* missing, Context& context) {
  if (value.find("name") == nullptr) context.mistake(value.spot, missing);
  return table.text("name").value_or(Name{});
}

}  // namespace

Paper read_paper(const Value& value, Context& context) {
  Table table(value, "a paper", context);
  Paper paper;
  paper.name =
      read_name(table, value, "This paper has no name. Add name = \"...\", as layers call it.", context);
  paper.sheet = table.size("sheet");
  paper.have = table.count("have", 0, most_sheets);
  read_weight_of(table, paper, context);
  read_thickness(table, value, paper, context);
  paper.cost = table.number("cost", Bound::not_negative);
  paper.up = table.truth("up");
  const Words<std::string> grains{{"long", "long"}, {"short", "short"}};
  paper.grain = table.word("grain", grains);
  paper.trim_first = table.length("trim-first", Bound::not_negative);
  table.finish();
  return paper;
}

Trimmer read_trimmer(const Value& value, Context& context) {
  Table table(value, "the trimmer", context);
  Trimmer trimmer;
  trimmer.longest = table.length("longest", Bound::positive);
  trimmer.blade_loss = table.length("blade-loss", Bound::not_negative);
  trimmer.hold = table.length("hold", Bound::not_negative);
  trimmer.sliver = table.length("sliver", Bound::not_negative);
  table.finish();
  return trimmer;
}

Mail read_mail(const Value& value, Context& context) {
  Table table(value, "the mail", context);
  Mail mail;
  mail.envelopes = table.names("envelope");
  mail.posts = table.names("post");
  for (const Name& name : mail.envelopes) {
    const std::string trouble = read_envelope(name.value, context.unit).trouble;
    if (!trouble.empty()) context.mistake(name.spot, trouble);
  }
  for (const Name& name : mail.posts) {
    const std::string trouble = read_post(name.value).trouble;
    if (!trouble.empty()) context.mistake(name.spot, trouble);
  }
  table.finish();
  return mail;
}

Supply read_supply(const Value& value, Context& context) {
  Table table(value, "a supply", context);
  Supply supply;
  supply.name = read_name(table, value, "This supply has no name. Add name = \"...\".", context);
  supply.per_card = table.number("per-card", Bound::positive);
  table.finish();
  return supply;
}

}  // namespace evenmat::reading
