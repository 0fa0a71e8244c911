#include "solver/search/arrange.h"

#include <algorithm>

namespace evenmat {
namespace {

struct Open {
  const ArcChoice* choice = nullptr;
  std::vector<std::size_t> options;  // those still possible
};

// What is decided so far, and how good it can become at best.
struct Node {
  explicit Node(Levels levels_so_far) : base(std::move(levels_so_far)) {}

  Levels base;                // decided arcs; levels settled that could not differ from the best known
  std::vector<Rational> met;  // those levels, and those of entries held back; ascending
  std::vector<Open> open;
  std::vector<Rational> levels;  // the first ones of every completion are no better than these
  bool exact = false;            // they are what the arcs decided so far lead to, all of them
  std::vector<int> trade_off;
  Rational trade_level;
  std::vector<Rational> places;  // no place of a completion as good as `levels` is less than these
};

class Search {
 public:
  Search(const Arrangement& arrangement, const std::optional<std::vector<Rational>>& at_least,
         const std::function<bool()>& go_on)
      : arrangement_(arrangement),
        at_least_(at_least),
        go_on_(go_on),
        grid_step_(Rational(integer_of(arrangement.grid), integer_of(arrangement.scale))) {}

  std::optional<Arranged> run() {
    Node root(Levels(arrangement_.places, arrangement_.entries, arrangement_.scale, arrangement_.grid));
    for (const Arc& arc : arrangement_.arcs) root.base.add(arc);
    for (const ArcChoice& choice : arrangement_.choices) {
      Open open{&choice, {}};
      for (std::size_t i = 0; i < choice.options.size(); ++i) open.options.push_back(i);
      root.open.push_back(std::move(open));
    }
    if (prepare(root)) explore(root);
    if (best_) best_->proven = !stopped_;
    return best_;
  }

 private:
  [[nodiscard]] const std::vector<Rational>* to_beat() const {
    return best_ ? &best_->levels : (at_least_ ? &*at_least_ : nullptr);
  }

  // Settles the first levels as long as they are those to beat: more arcs cannot raise them. What still
  // moves then must reach the next one of those, which is returned in `floor`. False when a level is worse.
  bool tighten(Node& node, std::optional<Rational>& floor) const {
    const std::vector<Rational>* beat = to_beat();
    if (beat == nullptr || beat->empty()) return true;
    for (;;) {
      Levels ahead = node.base;
      const Levels::Step step = ahead.next();
      if (step.kind == Levels::Step::Kind::impossible) return false;
      if (step.kind != Levels::Step::Kind::raised) break;
      std::vector<Rational> more = node.met;
      more.insert(more.end(), step.entries.size(), step.level);
      std::sort(more.begin(), more.end());
      const auto [mine, theirs] = std::mismatch(more.begin(), more.end(), beat->begin(), beat->end());
      if (mine != more.end() && theirs != beat->end()) {
        if (*mine < *theirs) return false;
        break;
      }
      node.met = std::move(more);
      node.base = std::move(ahead);
    }
    const auto common = static_cast<std::ptrdiff_t>(std::min(node.met.size(), beat->size()));
    if (!std::equal(node.met.begin(), node.met.begin() + common, beat->begin())) {
      floor = beat->front();  // what is held lies above what has been met
    } else if (node.met.size() < beat->size()) {
      floor = (*beat)[node.met.size()];
    }
    return true;
  }

  static void add(Levels& levels, const std::vector<Arc>& arcs) {
    for (const Arc& arc : arcs) levels.add(arc);
  }

  // Drops options that cannot hold, takes those that are the only ones left. False when nothing is left.
  bool narrow(Node& node) {
    for (bool changed = true; changed;) {
      changed = false;
      if (!go_on_()) {
        stopped_ = done_ = true;
        return false;
      }
      std::optional<Rational> floor;
      if (!tighten(node, floor)) return false;
      const auto footing = node.base.footing(floor);
      if (!footing) return false;
      for (std::size_t i = 0; i < node.open.size();) {
        Open& open = node.open[i];
        std::erase_if(open.options, [&](std::size_t option) {
          return !footing->bears(node.base.for_footing(open.choice->options[option], floor));
        });
        if (open.options.empty()) return false;
        if (open.options.size() > 1) {
          ++i;
          continue;
        }
        add(node.base, open.choice->options[open.options.front()]);
        node.open.erase(node.open.begin() + static_cast<std::ptrdiff_t>(i));
        changed = true;
      }
    }
    return true;
  }

  // Narrows a node and bounds it. False when it cannot be better than the best known.
  bool prepare(Node& node) {
    if (!narrow(node)) return false;
    node.levels = node.met;
    node.trade_off.clear();
    node.exact = true;
    Levels levels = node.base;
    for (;;) {
      const Levels::Step step = levels.next();
      if (step.kind == Levels::Step::Kind::impossible) return false;
      if (step.kind == Levels::Step::Kind::free) {
        node.exact = node.exact && static_cast<int>(node.levels.size()) == arrangement_.entries;
        break;
      }
      if (step.kind == Levels::Step::Kind::trade_off) {
        // At best the room is shared evenly among them, and what they take hinders nothing else.
        const auto above = static_cast<std::size_t>(step.above);
        node.levels.insert(node.levels.end(), step.entries.size() - above, step.level);
        node.levels.insert(node.levels.end(), above, step.level + grid_step_);
        if (node.trade_off.empty()) {
          node.trade_off = step.entries;
          node.trade_level = step.level;
        }
        node.exact = false;
        levels.let_be(step.entries, step.level);
        continue;
      }
      node.levels.insert(node.levels.end(), step.entries.size(), step.level);
      if (!node.open.empty() && beats(step.level, node.levels.size())) {  // enough is known of it
        node.exact = false;
        break;
      }
    }
    std::sort(node.levels.begin(), node.levels.end());
    if (!may_be_better(node)) return false;
    if (node.exact) {
      if (const auto places = levels.least_places()) {
        node.places = *places;
      } else {
        return false;
      }
    }
    return !ties_without_gain(node);
  }

  // -1, 0, 1: the node's levels against `others`, as far as they are known; 1 when it is still open.
  static int compare(const Node& node, const std::vector<Rational>& others) {
    for (std::size_t i = 0; i < node.levels.size() && i < others.size(); ++i) {
      if (node.levels[i] != others[i]) return node.levels[i] < others[i] ? -1 : 1;
    }
    return node.levels.size() == others.size() ? 0 : 1;
  }

  // Whether a level is above the one to beat in its place.
  [[nodiscard]] bool beats(const Rational& level, std::size_t count) const {
    const std::vector<Rational>* beat = to_beat();
    return beat != nullptr && count <= beat->size() && level > (*beat)[count - 1];
  }

  [[nodiscard]] bool may_be_better(const Node& node) const {
    if (best_) return compare(node, best_->levels) >= 0;
    return !at_least_ || compare(node, *at_least_) >= 0;
  }

  [[nodiscard]] bool ties_without_gain(const Node& node) const {
    if (!best_ || compare(node, best_->levels) != 0) return false;
    if (!node.exact) return arrangement_.least.empty();
    for (const int place : arrangement_.least) {
      const auto at = static_cast<std::size_t>(place);
      if (node.places[at] != best_->places[at]) return node.places[at] > best_->places[at];
    }
    return true;
  }

  void explore(Node& node) {
    if (done_) return;
    if (node.open.empty() && node.trade_off.empty()) {
      best_ = Arranged{node.levels, node.places};
      done_ = at_least_.has_value();
      return;
    }
    std::vector<Node> children;
    const auto try_child = [&](Node child) {
      if (prepare(child)) children.push_back(std::move(child));
    };
    if (node.open.empty()) {
      for (const int entry : node.trade_off) {
        Node child = node;
        child.base.hold(entry, node.trade_level);
        child.met.push_back(node.trade_level);
        std::sort(child.met.begin(), child.met.end());
        try_child(std::move(child));
      }
    } else {
      const auto narrowest =
          std::min_element(node.open.begin(), node.open.end(),
                           [](const Open& a, const Open& b) { return a.options.size() < b.options.size(); });
      const Open chosen = *narrowest;
      for (const std::size_t option : chosen.options) {
        Node child = node;
        child.open.erase(child.open.begin() + (narrowest - node.open.begin()));
        add(child.base, chosen.choice->options[option]);
        try_child(std::move(child));
      }
    }
    std::stable_sort(children.begin(), children.end(),
                     [&](const Node& a, const Node& b) { return more_promising(a, b); });
    for (Node& child : children) {
      if (done_) return;
      if (may_be_better(child) && !ties_without_gain(child)) explore(child);
    }
  }

  [[nodiscard]] bool more_promising(const Node& a, const Node& b) const {
    for (std::size_t i = 0; i < a.levels.size() && i < b.levels.size(); ++i) {
      if (a.levels[i] != b.levels[i]) return a.levels[i] > b.levels[i];
    }
    if (a.levels.size() != b.levels.size()) return a.levels.size() < b.levels.size();
    if (!a.exact || !b.exact) return false;
    for (const int place : arrangement_.least) {
      const auto at = static_cast<std::size_t>(place);
      if (a.places[at] != b.places[at]) return a.places[at] < b.places[at];
    }
    return false;
  }

  const Arrangement& arrangement_;
  const std::optional<std::vector<Rational>>& at_least_;
  const std::function<bool()>& go_on_;
  Rational grid_step_;
  std::optional<Arranged> best_;
  bool done_ = false;
  bool stopped_ = false;
};

}  // namespace

std::optional<Arranged> arrange(const Arrangement& arrangement,
                                const std::optional<std::vector<Rational>>& at_least,
                                const std::function<bool()>& go_on) {
  return Search(arrangement, at_least, go_on).run();
}

}  // namespace evenmat
