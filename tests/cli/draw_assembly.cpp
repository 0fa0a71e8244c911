// In which order a card is put together: what must come before what, over every case and over a card that has
// all there is.
#include <algorithm>
#include <filesystem>
#include <fstream>
#include <set>
#include <sstream>

#include "model/read_card.h"
#include "model/versions.h"
#include "tests/catch.h"
#include "tests/cli/assembly_order.h"

using namespace evenmat;
using namespace evenmat::testing;

namespace {

void check_each_once(const Order& order) {
  for (std::size_t i = 0; i < order.version.pieces.size(); ++i) {
    const Piece& piece = *order.version.pieces[i].piece;
    INFO(piece.name.value);
    const auto count = [&](auto&& wanted) {
      return std::count_if(order.steps.begin(), order.steps.end(),
                           [&](const AssemblyStep& step) { return step.piece == i && wanted(step); });
    };
    const auto stamped = count([](const AssemblyStep& step) { return step.kind == Kind::stamp; });
    const bool window = piece.kind == Piece::Kind::window;
    CHECK(count(is_glued) == (window || piece.stamped ? 0 : 1));
    CHECK(stamped == (!window && (piece.stamped || piece.stamp_first || piece.artwork) ? 1 : 0));
    if (!window) {
      CHECK(std::any_of(order.steps.begin(), order.steps.end(), [&](const AssemblyStep& step) {
        return step.piece == i && step.says.find(piece.name.value) != std::string::npos;
      }));
    }
  }
}

// Ink, then scissors, then glue.
void check_hands(const Order& order) {
  for (std::size_t i = 1; i < order.steps.size(); ++i) {
    const AssemblyStep& before = order.steps[i - 1];
    const AssemblyStep& step = order.steps[i];
    INFO(before.says << " " << step.says);
    CHECK_FALSE((is_glued(before) && !is_glued(step)));
    CHECK_FALSE((before.kind == Kind::cut_out && step.kind == Kind::stamp));
  }
}

// A stack is made up in the hand and goes on whole; what is raised waits for what it stands on.
void check_stacks(const Order& order) {
  for (const AssemblyStep& step : order.steps) {
    if (!is_glued(step)) continue;
    const Piece& piece = *order.version.pieces[step.piece].piece;
    const std::string below = ground(order, piece);
    INFO(step.says);
    CHECK((step.kind == Kind::foam) == (piece.raised.has_value() && piece.raised->value > 0));
    CHECK(step.says.find(below) != std::string::npos);
    if (order.piece(below) == nullptr) {
      CHECK(step.kind != Kind::glue);
    } else if (step.kind == Kind::glue) {
      CHECK(order.comes_before(piece.name.value, below));
    } else {
      CHECK(order.comes_before(below, piece.name.value));
    }
  }
}

void check_faces(const Order& order) {
  for (std::size_t i = 0; i < order.steps.size(); ++i) {
    for (std::size_t j = i + 1; j < order.steps.size(); ++j) {
      const AssemblyStep& before = order.steps[i];
      const AssemblyStep& step = order.steps[j];
      if (!is_glued(before) || !is_glued(step)) continue;
      const std::string& one = order.version.pieces[before.piece].face;
      const std::string& other = order.version.pieces[step.piece].face;
      INFO(before.says << " " << step.says);
      const bool foam = before.kind == Kind::foam || before.kind == Kind::late_glue;
      CHECK_FALSE((one == other && foam && step.kind == Kind::on_face));
      CHECK_FALSE((one == "inside" && other == "front"));
    }
  }
}

void check_overlaps(const Order& order) {
  for (const PlacedPiece& placed : order.version.pieces) {
    if (placed.piece->stamped) continue;
    for (const Name& lower : placed.piece->over) {
      const Piece* other = order.piece(lower.value);
      if (other == nullptr || other->stamped) continue;
      INFO(placed.piece->name.value << " over " << lower.value);
      CHECK(order.comes_before(lower.value, placed.piece->name.value));
      // And after what carries that, but for what carries both.
      const std::set<std::string> own = carriers(order, *placed.piece);
      for (const std::string& carrier : carriers(order, *other)) {
        if (!own.contains(carrier) && order.piece(carrier) != nullptr)
          CHECK(order.comes_before(carrier, placed.piece->name.value));
      }
    }
    // What shows through a window of a layer goes beneath that layer, or into the opening once that lies.
    const Piece* opening = order.piece(placed.piece->on.value);
    if (opening == nullptr || opening->kind == Piece::Kind::layer) continue;
    if (const Piece* holder = order.piece(opening->on.value)) {
      INFO(placed.piece->name.value << " and " << holder->name.value);
      if (goes_in(order, *placed.piece)) {
        CHECK(order.comes_before(holder->name.value, placed.piece->name.value));
      } else {
        CHECK(order.comes_before(placed.piece->name.value, holder->name.value));
      }
    }
  }
}

// What goes on before its opening is there is told its place; what goes on with the opening needs none.
void check_places(const Order& order) {
  for (const AssemblyStep& step : order.steps) {
    if (!is_glued(step)) continue;
    const Piece& piece = *order.version.pieces[step.piece].piece;
    const Piece* opening = order.piece(piece.on.value);
    const bool on_window = opening != nullptr && opening->kind == Piece::Kind::window;
    const bool in_hand = goes_in(order, piece) || goes_behind(order, piece);
    INFO(step.says);
    CHECK((step.says.find(" from its left and ") != std::string::npos) == (on_window && !in_hand));
  }
}

void check_order(const Order& order) {
  check_each_once(order);
  check_hands(order);
  check_stacks(order);
  check_faces(order);
  check_overlaps(order);
  check_places(order);
}

Order order_of(const Card& card, const SizedCard& sized, std::size_t version) {
  const Design& design = design_of(card, version);
  return {design, sized.versions[version], assembly_of(card, design, sized.versions[version])};
}

// Layers of every sort, in an order of the file that is not that of the work.
const std::string all_sorts = R"(unit = "in"
[base]
fold  = "side"
front = "7 x 9"

[[layer]]
name   = "inside panel"
on     = "inside"
border = "1/2"

[[layer]]
name      = "banner"
on        = "print"
size      = "3 x 1"
from-left = "1/2"
from-top  = "1/2"
over      = ["kite"]

[[layer]]
name      = "mat"
on        = "front"
border    = "1/4"
hollow    = true

[[layer]]
name      = "print"
on        = "mat"
border    = "1/8"

[[layer]]
name      = "kite"
on        = "print"
size      = "1 x 3"
from-left = "1"
from-top  = "3/4"
raised    = "1/16"
cut       = "die"
tilt      = -1

[[layer]]
name      = "words mat"
on        = "print"
size      = "3 x 2"
from-left   = "1/2"
from-bottom = "1/2"

[[layer]]
name        = "words"
on          = "words mat"
artwork     = "2 x 1"
border      = "1/16"
stamp-first = true

[[window]]
name = "peephole"
in   = "badge"
size = "1/2 x 1/2"

[[layer]]
name       = "badge"
on         = "print"
size       = "1 1/2 x 1 1/2"
from-right = "1/4"
from-top   = "1/4"

[[layer]]
name = "face"
on   = "peephole"
tuck = "1/8"
cut  = "by hand"

[[layer]]
name        = "ink"
on          = "print"
size        = "1 x 1"
from-right  = "1/4"
from-bottom = "1/4"
stamped     = true

[[layer]]
name    = "stars"
on      = "inside panel"
size    = "1 x 1"
copies  = 4
columns = 2
gap     = "1/4"
)";

struct Sized {
  Card card;
  SizedCard sized;
  explicit Sized(const std::string& text) {
    CardReading reading = read_card(text);
    INFO((reading.mistakes.empty() ? "" : reading.mistakes.front().says));
    REQUIRE(reading.card);
    card = std::move(*reading.card);
    sized = size_card(card, {});
    REQUIRE(sized.verdict == Verdict::buildable);
  }
  Sized(const Sized&) = delete;
  Sized& operator=(const Sized&) = delete;
};

}  // namespace

TEST_CASE("A card with layers of every sort is put together in an order that can be done") {
  const Sized one(all_sorts);
  const Order order = order_of(one.card, one.sized, 0);
  check_order(order);
  std::vector<std::string> said;
  for (const AssemblyStep& step : order.steps) said.push_back(step.says);
  // print lies 1/8 in, and 1/4 of the mat is left under it all round.
  const std::string middle =
      "The hidden middle of mat may be cut out and used, 5 3/4 x 7 3/4, 3/8 from its left and 3/8 in from "
      "its top "
      "edge: now, before anything is glued to it.";
  CHECK(said == std::vector<std::string>{
                    "Stamp or print words while it is still oversize. Let it dry.",
                    "Stamp ink on print. Let it dry.",
                    middle,
                    "Cut kite with its die, 1 x 3 in.",
                    "Trim words to 2 7/8 x 1 7/8 in, the work in its middle.",
                    "Cut out face by hand, 3/4 x 3/4 in. What is to be coloured on it is coloured first.",
                    "Glue words to words mat.",
                    "Glue words mat, with what is on it, to print.",
                    "Glue face to the back of badge, behind the opening of peephole.",
                    "Glue badge, with what is behind it, to print.",
                    "Glue print, with what is on it, to mat.",
                    "Glue mat, with what is on it, to the front.",
                    "Put kite on foam of 1/16 in, and on print, turned 1 degree anticlockwise.",
                    "Glue banner to print, over kite.",
                    "Glue stars (all 4) to inside panel.",
                    "Glue inside panel, with what is on it, to the inside.",
                });
}

// A bridge from one mat over a sign on another, with a bead on it; a cover with a peephole.
static const std::string two_stacks = R"(unit = "in"
cards = 3
[base]
fold  = "side"
front = "7 x 9"

[[layer]]
name      = "left mat"
on        = "front"
size      = "3 x 5"
from-left = "1/4"
from-top  = "1/4"

[[layer]]
name      = "bridge"
on        = "left mat"
size      = "3 x 1"
from-left = "1"
from-top  = "1"
overhang  = "at most 2"
over      = ["sign"]

[[layer]]
name   = "bead"
on     = "bridge"
size   = "1/2 x 1/2"
raised = "1/8"

[[layer]]
name       = "right mat"
on         = "front"
size       = "3 x 5"
from-right = "1/4"
from-top   = "1/4"

[[layer]]
name      = "sign"
on        = "right mat"
size      = "2 x 1"
from-left = "1/8"
from-top  = "1"

[[layer]]
name        = "cover"
on          = "front"
size        = "3 x 3"
from-bottom = "1/4"

[[window]]
name = "peephole"
in   = "cover"
size = "1 x 1"

[[layer]]
name   = "moth"
on     = "peephole"
border = "1/8"

[[variant]]
name = "high"
set  = { "sign.raised" = "1/16", "moth.raised" = "1/16" }

[[variant]]
name = "tall"
set  = { "right mat.raised" = "1/16" }
)";

TEST_CASE("What reaches from one stack over another goes on once both lie") {
  const Sized one(two_stacks);
  const Order flat = order_of(one.card, one.sized, 0);
  check_order(flat);
  CHECK(flat.steps[*flat.glued("bridge")].kind == Kind::late_glue);
  CHECK(flat.steps[*flat.glued("cover")].kind == Kind::on_face);
  // A raised sign waits for all that is flat, and what is over it waits for the sign.
  const Order high = order_of(one.card, one.sized, 1);
  check_order(high);
  CHECK(high.comes_before("sign", "bridge"));
  CHECK(high.comes_before("bridge", "bead"));
  CHECK(high.comes_before("cover", "moth"));
  // What is over the sign waits for the mat that carries it.
  const Order tall = order_of(one.card, one.sized, 2);
  check_order(tall);
  CHECK(tall.comes_before("right mat", "bridge"));
  CHECK(high.steps[*high.glued("cover")].kind == Kind::on_face);
}

TEST_CASE("Every case is put together in an order that can be done") {
  const std::filesystem::path folder = std::string(EVENMAT_SOURCE) + "/cases";
  int cards = 0;
  for (const auto& entry : std::filesystem::directory_iterator(folder)) {
    if (entry.path().extension() != ".toml") continue;
    std::ostringstream text;
    text << std::ifstream(entry.path()).rdbuf();
    INFO(entry.path().string());
    const Sized one(text.str());
    for (std::size_t version = 0; version < one.sized.versions.size(); ++version)
      check_order(order_of(one.card, one.sized, version));
    ++cards;
  }
  CHECK(cards > 20);
}

TEST_CASE("What lies across both doors of a gate comes after what lies on each and is glued to one") {
  std::ostringstream text;
  text << std::ifstream(std::string(EVENMAT_SOURCE) + "/cases/puppet-doors.toml").rdbuf();
  const Sized one(text.str());
  const Order order = order_of(one.card, one.sized, 0);
  CHECK(order.comes_before("left panel", "play title"));
  CHECK(order.comes_before("right panel", "play title"));
  CHECK(order.comes_before("play title", "stage strip"));
  const std::string& says = order.steps[*order.glued("play title")].says;
  CHECK(says.ends_with("Where it reaches over both doors, glue it to one."));
}
