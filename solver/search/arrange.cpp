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
  Levels base;  // decided arcs, no level settled but those held
  std::vector<Open> open;
  std::vector<Rational> levels;  // the first ones of every completion are no better than these
  bool complete = false;         // `levels` has all of them
  std::vector<int> trade_off;
  Rational trade_level;
  std::vector<Rational> places;  // no place of a completion as good as `levels` is less than these
  std::vector<Rational> held;    // levels of entries that were held back, ascending
};

class Search {
 public:
  Search(const Arrangement& arrangement, const std::optional<std::vector<Rational>>& at_least,
         const std::function<void()>& tick)
      : arrangement_(arrangement), at_least_(at_least), tick_(tick) {}

  std::optional<Arranged> run() {
    Node root{Levels(arrangement_.places, arrangement_.entries, arrangement_.scale, arrangement_.grid),
              {},
              {},
              false,
              {},
              0,
              {},
              {}};
    for (const Arc& arc : arrangement_.arcs) root.base.add(arc);
    for (const ArcChoice& choice : arrangement_.choices) {
      Open open{&choice, {}};
      for (std::size_t i = 0; i < choice.options.size(); ++i) open.options.push_back(i);
      root.open.push_back(std::move(open));
    }
    if (prepare(root)) explore(root);
    return best_;
  }

 private:
  // The lowest level must reach that of the best known.
  [[nodiscard]] std::optional<Rational> floor_level() const {
    if (best_) return best_->levels.empty() ? std::nullopt : std::optional(best_->levels.front());
    if (at_least_ && !at_least_->empty()) return at_least_->front();
    return std::nullopt;
  }

  static void add(Levels& levels, const std::vector<Arc>& arcs) {
    for (const Arc& arc : arcs) levels.add(arc);
  }

  // Drops options that cannot hold, takes those that are the only ones left. False when nothing is left.
  bool narrow(Node& node) {
    const std::optional<Rational> level = floor_level();
    for (bool changed = true; changed;) {
      changed = false;
      for (std::size_t i = 0; i < node.open.size();) {
        tick_();
        Open& open = node.open[i];
        const std::size_t arcs = node.base.arcs();
        std::erase_if(open.options, [&](std::size_t option) {
          add(node.base, open.choice->options[option]);
          const bool possible = node.base.possible(level);
          node.base.drop_to(arcs);
          return !possible;
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
    node.levels = node.held;
    node.trade_off.clear();
    node.complete = false;
    Levels levels = node.base;
    for (;;) {
      const Levels::Step step = levels.next();
      if (step.kind == Levels::Step::Kind::impossible) return false;
      if (step.kind == Levels::Step::Kind::free) {
        node.complete = static_cast<int>(node.levels.size()) == arrangement_.entries;
        break;
      }
      if (step.kind == Levels::Step::Kind::trade_off) {
        node.levels.push_back(step.level);  // one of them at least stays there
        node.trade_off = step.entries;
        node.trade_level = step.level;
        break;
      }
      node.levels.insert(node.levels.end(), step.entries.size(), step.level);
    }
    std::sort(node.levels.begin(), node.levels.end());
    if (!may_be_better(node)) return false;
    if (node.complete) {
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
    return node.complete ? 0 : 1;
  }

  [[nodiscard]] bool may_be_better(const Node& node) const {
    if (best_) return compare(node, best_->levels) >= 0;
    return !at_least_ || compare(node, *at_least_) >= 0;
  }

  [[nodiscard]] bool ties_without_gain(const Node& node) const {
    if (!best_ || !node.complete || compare(node, best_->levels) != 0) return false;
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
        child.held.push_back(node.trade_level);
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
    if (!a.complete || !b.complete) return false;
    for (const int place : arrangement_.least) {
      const auto at = static_cast<std::size_t>(place);
      if (a.places[at] != b.places[at]) return a.places[at] < b.places[at];
    }
    return false;
  }

  const Arrangement& arrangement_;
  const std::optional<std::vector<Rational>>& at_least_;
  const std::function<void()>& tick_;
  std::optional<Arranged> best_;
  bool done_ = false;
};

}  // namespace

std::optional<Arranged> arrange(const Arrangement& arrangement,
                                const std::optional<std::vector<Rational>>& at_least,
                                const std::function<void()>& tick) {
  return Search(arrangement, at_least, tick).run();
}

}  // namespace evenmat
