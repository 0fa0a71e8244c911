#include "solver/body/mail.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <optional>
#include <string_view>
#include <utility>

#include "model/envelopes.h"
#include "model/posts.h"

namespace evenmat {
namespace {

// Words for lengths and weights. What has more digits than a ruler or scale shows is rounded, always to the
// side on which it does not flatter the card.

enum class Toward { more, less };

Rational finest_shown(Unit unit) { return unit == Unit::inch ? Rational(1) / 64 : Rational(1) / 10; }

std::string rounded(const Rational& value, Unit unit, Toward toward) {
  const Rational step = finest_shown(unit);
  if (is_multiple(value, step)) return length_text(value, unit);
  return "about " +
         length_text(toward == Toward::more ? round_up(value, step) : round_down(value, step), unit);
}

std::string rounded_with_unit(const Rational& value, Unit unit, Toward toward) {
  return fmt::format("{} {}", rounded(value, unit, toward), unit_name(unit));
}

// A decimal of at most `places`, without needless zeros; what is not exact is "about".
std::string decimal(const Rational& value, unsigned places, Toward toward) {
  Integer scale = 1;
  for (unsigned i = 0; i < places; ++i) scale *= 10;
  const Rational step = Rational(1) / Rational(scale);
  const Rational shown = toward == Toward::more ? round_up(value, step) : round_down(value, step);
  const Integer whole = floor(shown);
  std::string digits = Integer(floor((shown - Rational(whole)) * Rational(scale))).str();
  digits.insert(0, places - std::min<std::size_t>(places, digits.size()), '0');
  while (!digits.empty() && digits.back() == '0') digits.pop_back();
  return (shown == value ? "" : "about ") + whole.str() + (digits.empty() ? "" : "." + digits);
}

// Paper is measured finer than cards are.
std::string thickness_text(const Rational& value, Unit unit, Toward toward) {
  return fmt::format("{} {}", decimal(value, unit == Unit::inch ? 3 : 2, toward), unit_name(unit));
}

std::string grams_text(const Rational& grams, Toward toward) { return decimal(grams, 1, toward) + " g"; }

std::string size_words(const Size& size, Unit unit) {
  return fmt::format("{} x {}", length_text(size.width, unit), length_with_unit(size.height, unit));
}

std::string list_of(const std::vector<std::string>& words) {
  std::string all;
  for (std::size_t i = 0; i < words.size(); ++i)
    all += (i == 0 ? "" : i + 1 == words.size() ? " and " : ", ") + words[i];
  return all;
}

// " Nothing is said of how thick linen is, so it counts as nothing."; empty when all is known.
std::string unknown(const std::vector<std::string>& papers, std::string_view how) {
  if (papers.empty()) return {};
  std::vector<std::string> words;
  for (const std::string& paper : papers) words.push_back(paper.empty() ? "things without a paper" : paper);
  const bool one = papers.size() == 1 && !papers.front().empty();
  return fmt::format(" Nothing is said of how {} {} {}, so {} as nothing.", how, list_of(words),
                     one ? "is" : "are", one ? "it counts" : "they count");
}

// The closed card in an envelope, one way or the other.

struct Way {
  Rational takes, measures, flat;  // along this side: the envelope less its ease; half way round; as if thin
  Rational within_front;           // the base alone, as if thin
  const char* along;               // of the card
  [[nodiscard]] Rational spare() const { return takes - measures; }
};
using Fit = std::array<Way, 2>;

Rational spare(const Fit& fit) { return std::min(fit[0].spare(), fit[1].spare()); }
bool goes_in(const Fit& fit) { return spare(fit) >= 0; }

Size in_unit(const Size& size, Unit from, Unit to) {
  return {convert(size.width, from, to), convert(size.height, from, to)};
}

// The way in which there is more to spare; as it stands, where both are alike.
Fit fit_in(const Card& card, const ClosedCard& closed, const Envelope& envelope) {
  const Size size = in_unit(envelope.size, envelope.unit, card.unit);
  const auto laid = [&](const Rational& across, const Rational& down) {
    return Fit{
        Way{across - card.mail.ease, closed.girth_across, closed.over_all.width, closed.front.width,
            "across"},
        Way{down - card.mail.ease, closed.girth_down, closed.over_all.height, closed.front.height, "down"}};
  };
  const Fit upright = laid(size.width, size.height);
  const Fit lying = laid(size.height, size.width);
  return spare(lying) > spare(upright) ? lying : upright;
}

bool takes(const Card& card, const ClosedCard& closed, const Envelope& envelope) {
  return goes_in(fit_in(card, closed, envelope));
}

Rational area(const Envelope& envelope) {
  const Size size = in_unit(envelope.size, envelope.unit, Unit::millimetre);
  return size.width * size.height;
}

// Standard envelopes that take the card, the smallest first; of one system of measures, if asked.
std::vector<const Envelope*> that_take(const Card& card, const ClosedCard& closed,
                                       std::optional<Unit> system = std::nullopt) {
  std::vector<const Envelope*> found;
  for (const Envelope& envelope : envelopes())
    if ((!system || envelope.unit == *system) && takes(card, closed, envelope)) found.push_back(&envelope);
  std::stable_sort(found.begin(), found.end(),
                   [](const Envelope* a, const Envelope* b) { return area(*a) < area(*b); });
  return found;
}

std::string called(const Envelope& envelope) {
  const std::string size = size_words(envelope.size, envelope.unit);
  const bool named = std::any_of(envelopes().begin(), envelopes().end(),
                                 [&](const Envelope& known) { return known.name == envelope.name; });
  return named ? fmt::format("{} ({})", envelope.name, size) : "the envelope of " + size;
}

// " beside the 1/16 in of ease"; nothing where none is left.
std::string beside_ease(const Card& card) {
  return card.mail.ease == 0
             ? ""
             : fmt::format(" beside the {} of ease", length_with_unit(card.mail.ease, card.unit));
}

std::string says_it_goes_in(const Card& card, const Envelope& taken, const Fit& fit) {
  const std::string envelope = called(taken);
  const Rational least = spare(fit);
  const Rational step = finest_shown(card.unit);
  const std::string ease = beside_ease(card);
  if (least == 0) return fmt::format("It just goes into {}, with nothing to spare{}.", envelope, ease);
  if (least < step) {
    return fmt::format("It goes into {}, with less than {} to spare{}.", envelope,
                       length_with_unit(step, card.unit), ease);
  }
  return fmt::format(
      "It goes into {} with {} to spare{}: half way round it measures {} across and {} down, and the "
      "envelope "
      "takes {} and {}.",
      envelope, rounded_with_unit(least, card.unit, Toward::less), ease,
      rounded_with_unit(fit[0].measures, card.unit, Toward::more),
      rounded_with_unit(fit[1].measures, card.unit, Toward::more),
      rounded_with_unit(fit[0].takes, card.unit, Toward::less),
      rounded_with_unit(fit[1].takes, card.unit, Toward::less));
}

std::string why_not(const Fit& fit) {
  const auto all = [&](Rational Way::*measure) {
    return std::all_of(fit.begin(), fit.end(), [&](const Way& way) { return way.*measure <= way.takes; });
  };
  if (all(&Way::flat)) return " Its thickness is what is too much: flat it would go in.";
  if (all(&Way::within_front)) return " What reaches past its edges is what is too much.";
  return " The card is too large for it, however thin.";
}

std::string says_it_does_not(const Card& card, const ClosedCard& closed, const Envelope& envelope,
                             const Fit& fit) {
  std::string ways;
  for (const Way& way : fit) {
    if (way.spare() >= 0) continue;
    ways += fmt::format("{}{} {} and the envelope takes {}, which is {} too much", ways.empty() ? "" : "; ",
                        rounded_with_unit(way.measures, card.unit, Toward::more), way.along,
                        rounded_with_unit(way.takes, card.unit, Toward::less),
                        rounded_with_unit(-way.spare(), card.unit, Toward::more));
  }
  std::string says = fmt::format("It does not go into {}: half way round it measures {}{}.{}",
                                 called(envelope), ways, beside_ease(card), why_not(fit));
  const std::vector<const Envelope*> larger = that_take(card, closed, envelope.unit);
  if (!larger.empty()) says += fmt::format(" {} takes it.", called(*larger.front()));
  return says;
}

MailNote note_of_envelope(const Card& card, const ClosedCard& closed, const Envelope& envelope,
                          const std::string& name, bool asked) {
  const Fit fit = fit_in(card, closed, envelope);
  MailNote note;
  note.name = name;
  note.kind = MailNote::Kind::envelope;
  note.asked = asked;
  note.fits = goes_in(fit);
  note.says =
      note.fits ? says_it_goes_in(card, envelope, fit) : says_it_does_not(card, closed, envelope, fit);
  note.says += unknown(closed.no_thickness, "thick");
  note.source = envelope.source;
  return note;
}

// The letter as the post gets it, in the post's unit.

// Common practice, no source: an envelope's paper is about 0.1 mm (0.004 in) thick and of 90 g/m2, and flaps
// and seams make its area about 2.2 times that of its face.
Rational wall(Unit unit) { return unit == Unit::inch ? Rational(4) / 1000 : Rational(1) / 10; }
Rational paper_of(const Size& face_in_millimetres) {
  return face_in_millimetres.width * face_in_millimetres.height * 22 * 90 / 10 / 1000000;
}

// Common practice, no source: foam, or layers that add more than 1/16 in to the base where the card is
// thickest, make a letter uneven.
Rational most_even(Unit unit) { return convert(Rational(1) / 16, Unit::inch, unit); }

struct Letter {
  Rational length, height, thickness, grams;
  Rational envelope_grams;  // of that
  std::string outside;      // what is measured, and why
};

Letter letter_of(const Card& card, const ClosedCard& closed, const PostRules& post,
                 const std::optional<Envelope>& envelope, bool asked_for_one) {
  Letter letter;
  letter.thickness = convert(closed.thickness, card.unit, post.unit);
  letter.grams = closed.grams;
  Size size = in_unit(closed.over_all, card.unit, post.unit);
  if (envelope) {
    size = in_unit(envelope->size, envelope->unit, post.unit);
    letter.thickness += 2 * wall(post.unit);
    letter.envelope_grams = paper_of(in_unit(envelope->size, envelope->unit, Unit::millimetre));
    letter.grams += letter.envelope_grams;
    letter.outside = "in " + called(*envelope);
  } else {
    letter.outside = fmt::format("without an envelope, as {} takes it",
                                 asked_for_one ? "none of those asked for" : "no standard one");
  }
  letter.length = std::max(size.width, size.height);
  letter.height = std::min(size.width, size.height);
  return letter;
}

struct Judgement {
  std::vector<std::string> against;  // why it is not taken
  std::vector<std::string> by_hand;  // why a machine does not take it
};

using Words = std::string (*)(const Rational&, Unit, Toward);

void judge(const Rational& value, const Between& limits, Unit unit, const char* what, Words words,
           std::vector<std::string>& against) {
  if (limits.least && value < *limits.least) {
    against.push_back(fmt::format(
        "it is {} {} and {} is the least, {} too little", words(value, unit, Toward::less), what,
        words(*limits.least, unit, Toward::less), words(*limits.least - value, unit, Toward::more)));
  }
  if (limits.most && value > *limits.most) {
    against.push_back(fmt::format(
        "it is {} {} and {} is the most, {} too much", words(value, unit, Toward::more), what,
        words(*limits.most, unit, Toward::less), words(value - *limits.most, unit, Toward::more)));
  }
}

std::string grams_words(const Rational& grams, Unit, Toward toward) { return grams_text(grams, toward); }

// "1.3 to 2.5 times", "at least 1.4 times"
std::string times(const Between& ratio) {
  const auto number = [](const Rational& value) { return decimal(value, 2, Toward::less); };
  if (ratio.least && ratio.most)
    return fmt::format("{} to {} times", number(*ratio.least), number(*ratio.most));
  return ratio.least ? "at least " + number(*ratio.least) + " times"
                     : "at most " + number(*ratio.most) + " times";
}

// Length over height is held to the limits without dividing; only the words divide.
void judge_ratio(const Letter& letter, const PostRules& post, Judgement& judgement) {
  const bool low = post.ratio.least && letter.length < *post.ratio.least * letter.height;
  const bool high = post.ratio.most && letter.length > *post.ratio.most * letter.height;
  if (!low && !high) return;
  std::vector<std::string>& reasons = post.by_hand.empty() ? judgement.against : judgement.by_hand;
  reasons.push_back(fmt::format(
      "it is {} as long as it is high and {} is asked",
      letter.length == letter.height
          ? "just"
          : decimal(letter.length / letter.height, 2, low ? Toward::less : Toward::more) + " times",
      times(post.ratio)));
}

void judge_evenness(const Card& card, const ClosedCard& closed, const PostRules& post, Judgement& judgement) {
  if (post.by_hand.empty()) return;
  Rational added;
  bool foam = false;
  for (const ThickPart& part : closed.thickest) {
    if (part.kind == ThickPart::Kind::leaf) continue;
    added += part.thickness;
    foam = foam || (part.kind == ThickPart::Kind::foam && part.thickness > 0);
  }
  if (!foam && added <= most_even(card.unit)) return;
  judgement.by_hand.push_back(fmt::format(
      "its thickness is uneven, {} more than its base at one place ({} counts as uneven, common practice)",
      thickness_text(convert(added, card.unit, post.unit), post.unit, Toward::more),
      foam ? "foam" : "more than " + length_with_unit(Rational(1) / 16, Unit::inch)));
}

// What is not known counts as nothing, so a letter may be too thick or heavy for all that, never too thin.
Judgement judged(const Card& card, const ClosedCard& closed, const PostRules& post, const Letter& letter) {
  Judgement judgement;
  judge(letter.length, post.length, post.unit, "long", rounded_with_unit, judgement.against);
  judge(letter.height, post.height, post.unit, "high", rounded_with_unit, judgement.against);
  Between thickness = post.thickness;
  if (!closed.no_thickness.empty()) thickness.least.reset();
  judge(letter.thickness, thickness, post.unit, "thick", thickness_text, judgement.against);
  judge(letter.grams, {std::nullopt, post.grams}, post.unit, "in weight", grams_words, judgement.against);
  judge_ratio(letter, post, judgement);
  if (post.thin && closed.no_thickness.empty() && letter.thickness < post.thin->thickness &&
      (letter.length > post.thin->length || letter.height > post.thin->height)) {
    judgement.by_hand.push_back(fmt::format("at its size {} is the least thickness and it has {}",
                                            thickness_text(post.thin->thickness, post.unit, Toward::less),
                                            thickness_text(letter.thickness, post.unit, Toward::less)));
  }
  judge_evenness(card, closed, post, judgement);
  return judgement;
}

std::string joined(const std::vector<std::string>& reasons) {
  std::string all;
  for (const std::string& reason : reasons) all += (all.empty() ? "" : "; ") + reason;
  return all;
}

MailNote note_of_post(const Card& card, const ClosedCard& closed, const PostRules& post,
                      const std::string& name, const Letter& letter) {
  const Judgement judgement = judged(card, closed, post, letter);
  MailNote note;
  note.name = name;
  note.kind = MailNote::Kind::post;
  note.fits = judgement.against.empty();
  note.by_hand = note.fits && !judgement.by_hand.empty();
  if (!note.fits) {
    note.says = fmt::format("Not a {} {}: {}.", post.format, letter.outside, joined(judgement.against));
  } else {
    note.says = fmt::format("A {} {}: {} thick and {}.", post.format, letter.outside,
                            thickness_text(letter.thickness, post.unit, Toward::more),
                            grams_text(letter.grams, Toward::more));
    if (note.by_hand)
      note.says += fmt::format(" But by hand: {}. {}", joined(judgement.by_hand), post.by_hand);
  }
  if (letter.envelope_grams > 0) {
    note.says +=
        fmt::format(" That counts the envelope, two sides of about {} {} and {} of paper (common practice).",
                    decimal(wall(post.unit), 3, Toward::more), unit_name(post.unit),
                    grams_text(letter.envelope_grams, Toward::more));
  }
  note.says += closed.no_thickness == closed.no_weight
                   ? unknown(closed.no_thickness, "thick and heavy")
                   : unknown(closed.no_thickness, "thick") + unknown(closed.no_weight, "heavy");
  note.source = fmt::format("{} ({})", post.source, post.date);
  note.says += fmt::format(" By {}. Rules change: check with your post office.", note.source);
  return note;
}

}  // namespace

std::vector<MailNote> mail_of(const Card& card, const ClosedCard& closed) {
  std::vector<MailNote> notes;
  std::optional<Envelope> chosen;  // the first one asked for that takes the card
  for (const Name& asked : card.mail.envelopes) {
    const std::optional<Envelope> envelope = read_envelope(asked.value, card.unit).envelope;
    if (!envelope) continue;  // refused when the card was read
    notes.push_back(note_of_envelope(card, closed, *envelope, asked.value, true));
    if (!chosen && notes.back().fits) chosen = envelope;
  }
  const bool asked_for_one = !card.mail.envelopes.empty();
  if (!asked_for_one) {
    constexpr std::size_t most_offered = 3;
    for (const Envelope* envelope : that_take(card, closed)) {
      if (notes.size() == most_offered) break;
      notes.push_back(note_of_envelope(card, closed, *envelope, envelope->name, false));
    }
  }
  for (const Name& asked : card.mail.posts) {
    const PostRules* post = read_post(asked.value).post;
    if (post == nullptr) continue;  // refused when the card was read
    std::optional<Envelope> envelope = chosen;
    if (!asked_for_one) {
      const std::vector<const Envelope*> found = that_take(card, closed, post->unit);
      if (!found.empty()) envelope = *found.front();
    }
    notes.push_back(note_of_post(card, closed, *post, asked.value,
                                 letter_of(card, closed, *post, envelope, asked_for_one)));
  }
  return notes;
}

}  // namespace evenmat
