#include "cli/plan/figure.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <optional>
#include <string>
#include <tuple>
#include <utility>

#include "cli/cut/plan.h"
#include "cli/drawing/number.h"
#include "cli/drawing/text.h"
#include "cli/plan/badges.h"
#include "cli/plan/labels.h"
#include "cli/printable.h"
#include "cli/wording.h"
#include "solver/batch/stock.h"

namespace evenmat {
namespace {

constexpr double lane = 13;  // of dimension lines

// What a piece has clear of the numbers on the cuts around it, and less where that is too narrow.
constexpr double clear_of_numbers = 6, clear_of_edges = 1.8;

class SheetPicture {
 public:
  SheetPicture(const CutTelling& telling, const PaperPlan& paper, const PlanNames& names, std::size_t laid,
               double scale, double room, bool roomy)
      : telling_(telling),
        paper_(paper),
        names_(names),
        index_(laid),
        laid_(paper.plan[laid]),
        stock_(paper.stock[laid_.sheet]),
        scale_(scale),
        room_(room),
        roomy_(roomy) {}

  PlanFigure run() {
    add_title();
    add_measures();
    add(Shape{.outline = ring_of(sheet_), .fill = Colour{1, 1, 1}});
    for (const Leftover& left : laid_.leftovers) add_leftover(left);
    for (std::size_t i = 0; i < laid_.pieces.size(); ++i) add_piece(i);
    add(Shape{.outline = ring_of(sheet_), .stroke = Stroke{cut_line().colour, 0.9}});
    add_cuts();
    add_arrows();
    for (const auto& [name, count] : key_) figure_.key.push_back({name, count});
    std::stable_sort(figure_.key.begin(), figure_.key.end(),
                     [&](const PlanKeyEntry& a, const PlanKeyEntry& b) {
                       return names_.names[a.name].rank < names_.names[b.name].rank;
                     });
    std::vector<Mark> marks = std::move(figure_.marks);
    marks.insert(marks.end(), over_.begin(), over_.end());
    figure_.marks = std::move(marks);
    figure_.width = std::max(figure_.width, sheet_.right() + beside_);
    figure_.height = std::max(figure_.height, sheet_.bottom() + below_);
    return std::move(figure_);
  }

 private:
  void add(Mark mark) { figure_.marks.push_back(std::move(mark)); }

  [[nodiscard]] Box placed(const Rational& x, const Rational& y, const Rational& width,
                           const Rational& height) const {
    return {sheet_.left + number(x) * scale_, sheet_.top + number(y) * scale_, number(width) * scale_,
            number(height) * scale_};
  }

  // "A: 6 sheets of 8 1/2 x 11", and what else is to be known of them in smaller type.
  void add_title() {
    const double sheet_width = number(stock_.size.width) * scale_;
    const double room = std::max(room_, sheet_width + lane);
    const std::string title = fmt::format("{}: {} of {}", laid_.letter,
                                          counted(laid_.times, stock_.is_offcut() ? "piece" : "sheet"),
                                          with_plain_blanks(size_words(stock_.size, telling_.unit())));
    double y = 0;
    const auto write = [&](const std::string& words, const Type& type) {
      if (words.empty()) return;
      const Text text = text_at({0, y}, words, type, room);
      figure_.width = std::max(figure_.width, text.box.right());
      y = text.box.bottom();
      add(text);
    };
    write(title, {.size = 8.5, .bold = true});
    std::string note = shortened(offcut_words(stock_), 160);
    if (laid_.cuts.empty()) note += note.empty() ? "taken uncut" : ", taken uncut";
    write(note, small());
    sheet_ = {lane, y + 3 + lane, sheet_width, number(stock_.size.height) * scale_};
  }

  static Type small() { return {.size = 6.5, .colour = {0.3, 0.3, 0.32}}; }

  // Its width above it and its height on its left: a line with the words in a gap of it, or beside a short
  // one.
  void add_measures() {
    const std::string width = length_with_unit(stock_.size.width, telling_.unit());
    const std::string height = length_with_unit(stock_.size.height, telling_.unit());
    const double y = sheet_.top - lane / 2 - 0.5;
    const double x = sheet_.left - lane / 2 - 0.5;
    Text across = text_around({sheet_.middle().x, y}, width, measure_type());
    across.box.left = std::max(across.box.left, sheet_.left);
    figure_.width = std::max(figure_.width, across.box.right());
    Text down = text_around({x, sheet_.middle().y}, height, measure_type(), Turn::up);
    down.box.top = std::max(down.box.top, sheet_.top);
    figure_.height = std::max(figure_.height, down.box.bottom());
    constexpr double gap = 3, least = 8;
    if (sheet_.width > across.box.width + 2 * (gap + least)) {
      add(Polyline{{{sheet_.left, y}, {across.box.left - gap, y}}, measure_line(), true});
      add(Polyline{{{across.box.right() + gap, y}, {sheet_.right(), y}}, measure_line(), false, true});
    }
    if (sheet_.height > down.box.height + 2 * (gap + least)) {
      add(Polyline{{{x, sheet_.top}, {x, down.box.top - gap}}, measure_line(), true});
      add(Polyline{{{x, down.box.bottom() + gap}, {x, sheet_.bottom()}}, measure_line(), false, true});
    }
    for (const double end : {sheet_.left, sheet_.right()})
      add(Polyline{{{end, y - 3}, {end, sheet_.top - 1.5}}, measure_line()});
    for (const double end : {sheet_.top, sheet_.bottom()})
      add(Polyline{{{x - 3, end}, {sheet_.left - 1.5, end}}, measure_line()});
    taken_.push_back(across.box);
    taken_.push_back(down.box);
    add(std::move(across));
    add(std::move(down));
  }

  void add_leftover(const Leftover& left) {
    const Box box = placed(left.x, left.y, left.width, left.height);
    Look look = left.keep ? keep_look() : scrap_look();
    add(Shape{.outline = ring_of(box), .fill = look.fill, .texture = look.texture, .stroke = look.edge});
    if (!left.keep) return;
    const std::string size = with_plain_blanks(size_words({left.width, left.height}, telling_.unit()));
    write_label(label_within({inset(box, clear_of_numbers), inset(box, clear_of_edges)}, "keep", size), look);
  }

  void add_piece(std::size_t index) {
    const LaidPiece& piece = laid_.pieces[index];
    const std::size_t which = names_.of_pieces[index_][index];
    const PlanName& name = names_.names[which];
    const Box box = placed(piece.x, piece.y, piece.width, piece.height);
    add(Shape{.outline = ring_of(box),
              .fill = name.look.fill,
              .texture = name.look.texture,
              .stroke = name.look.edge});
    const bool down = name.folds_down == (piece.turned == name.turned);
    const std::vector<Box> leaves = add_folds(name, box, down);
    if (const auto label = label_for(which, leaves, box)) {
      write_label(label, name.look);
      ++figure_.named;
      return;
    }
    ++key_[which];
    const auto mark = mark_within({inset(box, clear_of_numbers), inset(box, clear_of_edges)}, name.letter);
    if (mark) {
      write_label(mark, name.look);
    } else {
      ++figure_.bare;
    }
  }

  // Pieces of one name have rooms of few sizes: each is tried once.
  std::optional<PieceLabel> label_for(std::size_t which, const std::vector<Box>& leaves, const Box& box) {
    const auto rooms_of = [&](const Box& by) {
      std::vector<Box> rooms;
      for (const double edge : {clear_of_numbers, roomy_ ? clear_of_numbers : clear_of_edges}) {
        for (Box leaf : leaves) {
          leaf.left -= by.left;
          leaf.top -= by.top;
          rooms.push_back(inset(leaf, edge));
        }
      }
      return rooms;
    };
    const auto tried = std::find_if(tried_.begin(), tried_.end(), [&](const Tried& one) {
      return one.name == which && one.box.width == box.width && one.box.height == box.height;
    });
    if (tried == tried_.end()) {
      const PlanName& name = names_.names[which];
      tried_.push_back({which, box, label_within(rooms_of({}), name.name, name.size)});
      return tried_.back().label;
    }
    std::optional<PieceLabel> label = tried->label;
    if (!label) return label;
    const double x = box.left - tried->box.left;
    const double y = box.top - tried->box.top;
    label->box.left += x;
    label->box.top += y;
    for (Text& line : label->lines) {
      line.box.left += x;
      line.box.top += y;
    }
    return label;
  }

  // What lies between the folds, the largest first, and then the whole.
  std::vector<Box> add_folds(const PlanName& name, const Box& box, bool down) {
    std::vector<double> at = name.folds;
    std::sort(at.begin(), at.end());
    std::vector<Box> leaves;
    double from = 0;
    const double far = down ? box.width : box.height;
    const auto add_leaf = [&](double to) {
      leaves.push_back(down ? Box{box.left + from, box.top, to - from, box.height}
                            : Box{box.left, box.top + from, box.width, to - from});
      from = to;
    };
    for (const double fold : at) {
      const double place = fold * scale_;
      if (down) {
        add(Polyline{{{box.left + place, box.top}, {box.left + place, box.bottom()}}, fold_line()});
      } else {
        add(Polyline{{{box.left, box.top + place}, {box.right(), box.top + place}}, fold_line()});
      }
      add_leaf(place);
    }
    add_leaf(far);
    std::stable_sort(leaves.begin(), leaves.end(), [](const Box& a, const Box& b) {
      return a.width * a.height > b.width * b.height + 1e-6;
    });
    if (leaves.size() > 1) leaves.push_back(box);
    return leaves;
  }

  void write_label(const std::optional<PieceLabel>& label, const Look& look) {
    if (!label) return;
    add_label(over_, *label, look);
    taken_.push_back(label->box);
  }

  void add_cuts() {
    std::vector<CutLine> lines;
    for (const SheetCut& cut : laid_.cuts) {
      const Box hand = placed(cut.x, cut.y, cut.width, cut.height);
      const double at = number(cut.at) * scale_;
      const double x = hand.left + at;
      const double y = hand.top + at;
      lines.push_back(cut.across ? CutLine{{hand.left, y}, {hand.right(), y}, cut.step}
                                 : CutLine{{x, hand.top}, {x, hand.bottom()}, cut.step});
      add(Polyline{{lines.back().from, lines.back().to}, cut_line()});
    }
    std::vector<Box> pieces;
    for (const LaidPiece& piece : laid_.pieces)
      pieces.push_back(placed(piece.x, piece.y, piece.width, piece.height));
    for (const Leftover& left : laid_.leftovers) {
      if (left.keep) pieces.push_back(placed(left.x, left.y, left.width, left.height));
    }
    const CutBadges badges = badges_of(lines, sheet_, taken_, pieces);
    over_.insert(over_.end(), badges.marks.begin(), badges.marks.end());
    figure_.outside = badges.outside.size();
    for (const Box& box : badges.boxes)
      figure_.crowded += box.width * box.height / (sheet_.width * sheet_.height);
    for (const CutRun& run : badges.runs) add_unnumbered(run, lines, pieces);
    beside_ = std::max(beside_, badges.beside + 1);
    below_ = std::max(below_, badges.below + 1);
  }

  // In several strips alike they are told as one.
  void add_unnumbered(const CutRun& run, const std::vector<CutLine>& lines, const std::vector<Box>& pieces) {
    const SheetCut& first = laid_.cuts[run.cuts.front()];
    UnnumberedCuts told{first.step, first.across, static_cast<int>(run.cuts.size()), {}};
    for (std::size_t i = 0; i < laid_.pieces.size(); ++i) {
      const bool is_beside = std::any_of(run.cuts.begin(), run.cuts.end(),
                                         [&](std::size_t cut) { return ends_at(pieces[i], lines[cut]); });
      if (!is_beside) continue;
      const std::size_t which = names_.of_pieces[index_][i];
      const PlanName& name = names_.names[which];
      const std::string& word = key_.contains(which) ? name.letter : name.name;
      if (std::find(told.alongside.begin(), told.alongside.end(), word) == told.alongside.end())
        told.alongside.push_back(word);
    }
    for (UnnumberedCuts& other : figure_.unnumbered) {
      if (other.step != told.step || other.across != told.across || other.alongside != told.alongside)
        continue;
      other.count += told.count;
      return;
    }
    figure_.unnumbered.push_back(std::move(told));
  }

  // Whether the cut sets the piece's right or bottom edge.
  static bool ends_at(const Box& piece, const CutLine& cut) {
    constexpr double hair = 1e-3;
    if (cut.level()) {
      return std::abs(piece.bottom() - cut.from.y) < hair && piece.left < cut.to.x &&
             cut.from.x < piece.right();
    }
    return std::abs(piece.right() - cut.from.x) < hair && piece.top < cut.to.y && cut.from.y < piece.bottom();
  }

  // Beside the sheet, turned up; grain that runs across below it.
  void add_arrows() {
    const bool up = stock_.up || std::any_of(paper_.stock.begin(), paper_.stock.end(),
                                             [](const CutSheet& sheet) { return sheet.up; });
    const bool grain = !stock_.grain.empty();
    const bool grain_down = grain && batch::grain_runs_down(stock_);
    double y = sheet_.top;
    const double x = sheet_.right() + beside_ + 4;
    const auto beside = [&](const std::string& word, bool both) {
      const Text text = text_around({x + 8, y + length / 2}, word, measure_type(), Turn::up);
      add(Polyline{{{x, y}, {x, y + length}}, arrow_stroke(), true, both});
      add(text);
      y += length + 8;
      reach_ = std::max(reach_, text.box.right() - sheet_.right());
      figure_.height = std::max(figure_.height, std::max(text.box.bottom(), y - 8));
    };
    if (up) beside("up", false);
    if (grain_down) beside("grain", true);
    beside_ = std::max(beside_, reach_);
    if (!grain || grain_down) return;
    const double below = sheet_.bottom() + below_ + 7;
    Text text = text_around({0, below}, "grain", measure_type());
    text.box.left = sheet_.left + length + 4;
    add(Polyline{{{sheet_.left, below}, {sheet_.left + length, below}}, arrow_stroke(), true, true});
    add(text);
    figure_.width = std::max(figure_.width, text.box.right());
    below_ = text.box.bottom() - sheet_.bottom();
  }

  static constexpr double length = 26;  // of an arrow
  static Stroke arrow_stroke() { return {cut_line().colour, 0.8}; }

  struct Tried {
    std::size_t name = 0;
    Box box;
    std::optional<PieceLabel> label;
  };

  const CutTelling& telling_;
  const PaperPlan& paper_;
  const PlanNames& names_;
  std::size_t index_;
  const LaidSheet& laid_;
  const CutSheet& stock_;
  double scale_, room_;
  bool roomy_;  // names leave the edges to the numbers, whatever becomes of them
  Box sheet_;
  PlanFigure figure_;
  std::vector<Mark> over_;  // words and numbers, above all else
  std::vector<Box> taken_;  // where there are words
  std::vector<Tried> tried_;
  std::map<std::size_t, int> key_;
  double beside_ = 2, below_ = 2, reach_ = 0;  // past the sheet
};

}  // namespace

PlanFigure plan_figure(const CutTelling& telling, const PaperPlan& paper, const PlanNames& names,
                       std::size_t laid, double scale, double room) {
  PlanFigure figure = SheetPicture(telling, paper, names, laid, scale, room, false).run();
  const auto displaced = [](const PlanFigure& one) { return one.outside + one.unnumbered.size(); };
  if (displaced(figure) == 0) return figure;
  PlanFigure roomy = SheetPicture(telling, paper, names, laid, scale, room, true).run();
  return displaced(roomy) < displaced(figure) ? roomy : figure;
}

}  // namespace evenmat
