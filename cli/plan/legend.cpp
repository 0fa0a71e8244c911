#include "cli/plan/legend.h"

#include <algorithm>
#include <functional>
#include <set>
#include <string>
#include <utility>
#include <variant>
#include <vector>

#include "cli/drawing/text.h"
#include "cli/plan/badges.h"
#include "cli/plan/names.h"

namespace evenmat {
namespace {

// What the signs mean that are in the plan.
class Legend {
 public:
  Legend(Flow& flow, const CutTelling& telling) : flow_(flow), telling_(telling) {}

  void add() {
    const Signs signs = signs_used();
    if (signs.base) add_look("base", base_look());
    for (const Role role : signs.roles) add_look(look_name(role), look_of(role, 0.75));
    if (signs.folds) {
      item("score", [](std::vector<Mark>& marks, const At& at) {
        marks.emplace_back(Polyline{{{at.x, at.y + 4}, {at.x + swatch_width + 4, at.y + 4}}, fold_line()});
      });
    }
    if (signs.cuts) {
      item("cut, with its step", [](std::vector<Mark>& marks, const At& at) {
        marks.emplace_back(Polyline{{{at.x, at.y + 4}, {at.x + swatch_width + 4, at.y + 4}}, cut_line()});
        add_badge(marks, {at.x + swatch_width / 2 + 2, at.y + 4}, 1, 0.9);
      });
    }
    if (signs.keep) add_look("worth keeping", keep_look());
    if (signs.scrap) add_look("scrap", scrap_look());
    if (signs.up) add_arrow("the way the print stands", false);
    if (signs.grain) add_arrow("grain", true);
    finish();
  }

 private:
  struct Signs {
    bool base = false, folds = false, cuts = false, keep = false, scrap = false, up = false, grain = false;
    std::set<Role> roles;
  };

  [[nodiscard]] Signs signs_used() const {
    Signs signs;
    for (const PaperPlan& paper : telling_.batch.papers) {
      for (const LaidSheet& laid : paper.plan) {
        signs.cuts = signs.cuts || !laid.cuts.empty();
        for (const Leftover& left : laid.leftovers) (left.keep ? signs.keep : signs.scrap) = true;
        signs.up = signs.up || std::any_of(paper.stock.begin(), paper.stock.end(),
                                           [](const CutSheet& sheet) { return sheet.up; });
        signs.grain = signs.grain || !paper.stock[laid.sheet].grain.empty();
      }
      const PlanNames names = plan_names(telling_, paper);
      for (const PlanName& name : names.names) {
        signs.base = signs.base || name.base;
        signs.folds = signs.folds || !name.folds.empty();
        if (!name.base) signs.roles.insert(name.role);
      }
    }
    return signs;
  }

  using Draw = std::function<void(std::vector<Mark>&, const At&)>;

  void add_look(const std::string& words, const Look& look) {
    item(words, [&](std::vector<Mark>& marks, const At& at) { marks.emplace_back(swatch(at, look)); });
  }

  void add_arrow(const std::string& words, bool both) {
    item(words, [both](std::vector<Mark>& marks, const At& at) {
      const double x = at.x + swatch_width / 2;
      marks.emplace_back(
          Polyline{{{x, at.y - 2}, {x, at.y + swatch_height + 2}}, {cut_line().colour, 0.8}, true, both});
    });
  }

  void item(const std::string& words, const Draw& draw) {
    constexpr double to_words = swatch_width + 7, between = 11;
    Text text = text_at({0, 0}, words, note_type(), flow_.width());
    const double width = to_words + text.box.width;
    if (x_ > 0 && x_ + width > flow_.width()) finish();
    draw(row_, {x_, 3});
    text.box.left = x_ + to_words;
    text.box.top = 3 + swatch_height / 2 - text.box.height / 2;
    row_.emplace_back(std::move(text));
    x_ += width + between;
  }

  void finish() {
    if (row_.empty()) return;
    const Box box = flow_.take(swatch_height + 7);
    for (Mark& mark : row_) {
      move_by(mark, {box.left, box.top});
      flow_.page().marks.push_back(std::move(mark));
    }
    row_.clear();
    x_ = 0;
  }

  Flow& flow_;
  const CutTelling& telling_;
  std::vector<Mark> row_;  // from its own top left corner
  double x_ = 0;
};

}  // namespace

Type note_type() { return {.size = 7, .colour = {0.3, 0.3, 0.32}}; }

Shape swatch(const At& at, const Look& look) {
  return {.outline = ring_of({at.x, at.y, swatch_width, swatch_height}),
          .fill = look.fill,
          .texture = look.texture,
          .stroke = look.edge};
}

void move_by(Mark& mark, const At& by) {
  struct Shift {
    At by;
    void operator()(Ring& ring) const {
      for (At& at : ring) at = {at.x + by.x, at.y + by.y};
    }
    void operator()(Shape& shape) const {
      (*this)(shape.outline);
      for (Ring& opening : shape.openings) (*this)(opening);
    }
    void operator()(Polyline& line) const { (*this)(line.points); }
    void operator()(Text& text) const {
      text.box.left += by.x;
      text.box.top += by.y;
    }
  };
  std::visit([&](auto& one) { Shift{by}(one); }, mark);
}

void add_plan_legend(Flow& flow, const CutTelling& telling) { Legend(flow, telling).add(); }

}  // namespace evenmat
