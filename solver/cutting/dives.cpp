#include "solver/cutting/dives.h"

#include <algorithm>
#include <set>
#include <utility>

#include "solver/cutting/best_sheet.h"
#include "solver/cutting/dice.h"
#include "solver/cutting/scarce_sheet.h"
#include "solver/cutting/tree_shape.h"
#include "solver/cutting/ways_program.h"

namespace evenmat::cutting {
namespace {

constexpr int askings = 200;       // of all ways, before the first dive
constexpr int askings_a_step = 6;  // after ways are taken
constexpr int tries = 8;           // at ways that help, before a dive
constexpr int tries_a_step = 2;
constexpr std::size_t ways_a_try = 20;
constexpr std::size_t fillings_with_care = 3;  // that are remembered of a rectangle
constexpr double sure = 0.9;                   // ways used so often are taken together
constexpr int shake = 30;                      // per cent, of how often a way is used
constexpr double hair = 1e-6;

}  // namespace

class Dives::Mixing {
 public:
  Mixing(const Job& job, std::optional<Deadline> deadline)
      : job_(job), deadline_(deadline), program_(program_of(job)), dice_(1) {
    grids_.reserve(job.sheets.size());
    for (std::size_t s = 0; s < job.sheets.size(); ++s) {
      grids_.emplace_back(job, s);
      sheets_.emplace_back(job, s, grids_.back());
    }
  }

  void add(Column column) { learn(std::move(column)); }

  std::optional<Dive> next(std::int64_t cost, std::int64_t looks) {
    looks_allowed_ = looks_ + looks;
    wanted_.clear();
    for (const Kind& kind : job_.kinds) wanted_.push_back(kind.count);
    have_.clear();
    for (const Sheet& sheet : job_.sheets) have_.push_back(sheet.have);
    set_wanted(program_.get(), wanted_, have_);
    if (!generate(dives_ == 0 ? askings : askings_a_step, tries) ||
        cost_of_mix() > static_cast<double>(cost - 1) + hair)
      return {};
    Dive dive;
    std::int64_t spent = 0;
    while (is_any_wanted()) {
      if (static_cast<double>(spent) + cost_of_mix() > static_cast<double>(cost - 1) + hair) break;
      const std::size_t before = dive.cuts.size();
      take_most_used(dive.cuts);
      if (dive.cuts.size() == before) break;
      for (std::size_t i = before; i < dive.cuts.size(); ++i)
        spent += job_.sheets[dive.cuts[i].way.sheet].cost * dive.cuts[i].times;
      set_wanted(program_.get(), wanted_, have_);
      if (!generate(askings_a_step, tries_a_step)) break;
    }
    ++dives_;
    dive.left = wanted_;
    return dive;
  }

  [[nodiscard]] std::int64_t looks() const { return looks_; }

 private:
  [[nodiscard]] bool is_late() const {
    return looks_ > looks_allowed_ || (deadline_ && std::chrono::steady_clock::now() >= *deadline_);
  }
  [[nodiscard]] double cost_of_mix() const { return glp_get_obj_val(program_.get()); }
  [[nodiscard]] bool is_any_wanted() const {
    return std::any_of(wanted_.begin(), wanted_.end(), [](int count) { return count > 0; });
  }

  // Whether it is new. What is more than wanted is given up, and ways that give the same count once.
  bool learn(Column column) {
    std::vector<int> counts;
    for (const Kind& kind : job_.kinds) counts.push_back(kind.count);
    give_up_pieces(column.tree, counts, job_.blade);
    if (column.tree.what == Part::What::waste || !keeps_limits(column.tree, job_)) return false;
    column.gives = pieces_in(column.tree, job_.kinds.size());
    std::vector<int> key = column.gives;
    key.push_back(static_cast<int>(column.sheet));
    if (!known_.insert(std::move(key)).second) return false;
    add_column(program_.get(), job_, column, false);
    all_.push_back(std::move(column));
    return true;
  }

  bool mix() {
    if (is_late()) return false;
    const int before = glp_get_it_cnt(program_.get());
    const bool good = solve(program_.get());
    const std::int64_t steps = 1 + glp_get_it_cnt(program_.get()) - before;
    looks_ += steps * static_cast<std::int64_t>(3 * all_.size() / 2 + 15 * job_.kinds.size());
    return good;
  }

  // Mixes until no new way is found that helps, or so often. False where there is no mix, or no time.
  bool generate(int times, int tries_each) {
    for (int i = 0; i < times; ++i) {
      if (!mix()) return false;
      if (!ask(tries_each)) return true;
    }
    return mix();
  }

  // Learns ways that help the mix; whether there were any.
  bool ask(int tries_each) {
    const auto worths = whole_worths(program_.get(), job_);
    if (!worths) return false;
    bool helped = false;
    for (std::size_t s = 0; s < sheets_.size(); ++s) {
      if (!grids_[s].is_possible() || (have_[s] && *have_[s] <= 0)) continue;
      const std::int32_t needed = worths->needed(program_.get(), job_, s);
      bool here = false;
      for (int n = 0; n < tries_each && !here && !is_late(); ++n)
        here = try_ways(s, worths->of_kinds, needed, n);
      helped = helped || here;
    }
    return helped;
  }

  // First the best way that is quickly found, then more carefully, then for worths that are a little other.
  bool try_ways(std::size_t sheet, const std::vector<std::int32_t>& worths, std::int32_t needed, int n) {
    std::vector<std::int32_t> shaken = worths;
    std::int32_t above = needed;
    if (n > 1) {
      const std::int32_t percent = n % 2 == 0 ? 30 : 60;
      for (std::int32_t& worth : shaken)
        worth -= worth / 100 * static_cast<std::int32_t>(dice_.roll(static_cast<std::uint64_t>(percent) + 1));
      above -= needed / 100 * (n % 2 == 0 ? 25 : 70);
    }
    const std::size_t each = n == 1 ? fillings_with_care : 1;
    bool helped = false;
    for (Part& tree : sheets_[sheet].ways(shaken, wanted_, above, {ways_a_try, each})) {
      Column column{sheet, std::move(tree), {}};
      std::int64_t worth = 0;
      const std::vector<int> gives = pieces_in(column.tree, job_.kinds.size());
      for (std::size_t k = 0; k < worths.size(); ++k) worth += std::int64_t{worths[k]} * gives[k];
      if (worth > needed) helped = learn(std::move(column)) || helped;
    }
    looks_ += sheets_[sheet].looks(each);
    return helped;
  }

  // The way most used, and all that are used at least nearly once and give no more than is still wanted.
  void take_most_used(std::vector<Cut>& taken) {
    std::vector<std::pair<double, std::size_t>> used;
    for (std::size_t i = 0; i < all_.size(); ++i) {
      double times = glp_get_col_prim(program_.get(), static_cast<int>(i) + 1);
      if (times <= hair) continue;
      if (dives_ > 0) times *= 1 + static_cast<double>(dice_.roll(shake + 1)) / 100;
      used.emplace_back(times, i);
    }
    std::sort(used.begin(), used.end(), [](const auto& a, const auto& b) {
      return a.first > b.first || (a.first == b.first && a.second < b.second);
    });
    const std::size_t before = taken.size();
    for (const auto& [often, index] : used) {
      const bool is_first = taken.size() == before;
      if (!is_first && often < sure) break;
      const Column& way = all_[index];
      std::optional<int>& have = have_[way.sheet];
      int times = std::max(1, static_cast<int>(std::min(1e9, often + 1 - sure)));
      if (have) times = std::min(times, *have);
      const bool is_left = times > 0;
      for (std::size_t k = 0; k < wanted_.size(); ++k) {
        if (way.gives[k] > 0) times = std::min(times, wanted_[k] / way.gives[k]);
      }
      if (times > 0) {
        for (std::size_t k = 0; k < wanted_.size(); ++k) wanted_[k] -= times * way.gives[k];
        taken.push_back({way, times});
      } else if (is_first && is_left) {
        Column part = way;
        give_up_pieces(part.tree, wanted_, job_.blade);
        if (part.tree.what == Part::What::waste) continue;
        part.gives = pieces_in(part.tree, job_.kinds.size());
        times = 1;
        taken.push_back({std::move(part), times});
      }
      if (have) *have -= times;
    }
  }

  const Job& job_;
  std::optional<Deadline> deadline_;
  Program program_;
  Dice dice_;
  std::vector<BestSheet> grids_;
  std::vector<ScarceSheet> sheets_;
  std::set<std::vector<int>> known_;
  std::vector<Column> all_;
  // Of the dive under way.
  std::vector<int> wanted_;
  std::vector<std::optional<int>> have_;
  std::int64_t dives_ = 0;
  std::int64_t looks_ = 0;
  std::int64_t looks_allowed_ = 0;
};

Dives::Dives(const Job& job, std::optional<Deadline> deadline)
    : mixing_(std::make_unique<Mixing>(job, deadline)) {}
Dives::~Dives() = default;
void Dives::add(const Column& way) { mixing_->add(way); }
std::optional<Dive> Dives::next(std::int64_t cost, std::int64_t looks) { return mixing_->next(cost, looks); }
std::int64_t Dives::looks() const { return mixing_->looks(); }

}  // namespace evenmat::cutting
