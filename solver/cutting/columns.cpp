#include "solver/cutting/columns.h"

#include <glpk.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <memory>
#include <set>

#include "solver/cutting/best_sheet.h"
#include "solver/cutting/cover.h"
#include "solver/cutting/tree_shape.h"
#include "solver/cutting/ways_program.h"

namespace evenmat::cutting {
namespace {

class Generation {
 public:
  Generation(const Job& job, const ColumnEffort& effort)
      : job_(job), effort_(effort), program_(program_of(job)) {
    for (std::size_t s = 0; s < job.sheets.size(); ++s) sheets_.emplace_back(job, s);
  }

  Columns run(const std::vector<Column>& start, std::int64_t cost) {
    if (std::any_of(sheets_.begin(), sheets_.end(),
                    [](const BestSheet& one) { return !one.is_possible(); })) {
      found_.all = start;
      return std::move(found_);
    }
    for (const Column& column : start) add(column);
    for (int asking = 0; asking < effort_.askings; ++asking) {
      if (!mix()) break;
      const bool helped = ask();
      if (found_.at_least >= cost || !helped) break;
      // Between here and the next whole cost no mix of ways can bring a better bound.
      const double mixed = glp_get_obj_val(program_.get());
      if (found_.at_least >= static_cast<std::int64_t>(std::ceil(mixed - 1e-6))) break;
    }
    if (mix()) {
      for (int i = 1; i <= glp_get_num_cols(program_.get()); ++i)
        found_.times.push_back(glp_get_col_prim(program_.get(), i));
    }
    keep_usable();
    return std::move(found_);
  }

 private:
  [[nodiscard]] bool is_late() const {
    return effort_.deadline && std::chrono::steady_clock::now() >= *effort_.deadline;
  }

  // The best mix of the ways known; false where there is none, or no time.
  bool mix() { return !is_late() && solve(program_.get()); }

  bool add(const Column& column) {
    std::vector<Measure> key = signature(column.tree);
    key.push_back(static_cast<Measure>(column.sheet));
    if (!known_.insert(std::move(key)).second) return false;
    found_.all.push_back(column);
    add_column(program_.get(), job_, column, false);
    return true;
  }

  // Whole worths from the program's prices, the bound that they prove, and the ways that they say would help.
  bool ask() {
    const auto worths = whole_worths(program_.get(), job_);
    if (!worths) return false;
    std::vector<std::int32_t> sheet_worth;
    bool helped = false;
    for (std::size_t s = 0; s < sheets_.size(); ++s) {
      sheet_worth.push_back(sheets_[s].most(worths->of_kinds));
      if (sheet_worth.back() > worths->needed(program_.get(), job_, s)) {
        Column column{s, sheets_[s].tree(), {}};
        column.gives = pieces_in(column.tree, job_.kinds.size());
        helped = add(column) || helped;
      }
    }
    found_.at_least = std::max(found_.at_least, bound(worths->of_kinds, sheet_worth));
    return helped;
  }

  // Whole sheets that together are worth as much as all pieces, or as much as can be asked for, cost at least
  // so much.
  [[nodiscard]] std::int64_t bound(const std::vector<std::int32_t>& worths,
                                   const std::vector<std::int32_t>& sheet_worth) const {
    std::int64_t need = 0;
    for (std::size_t k = 0; k < worths.size(); ++k) need += std::int64_t{worths[k]} * job_.kinds[k].count;
    std::vector<Worth> sheets;
    for (std::size_t s = 0; s < job_.sheets.size(); ++s)
      sheets.push_back({sheet_worth[s], job_.sheets[s].cost, job_.sheets[s].have});
    return std::max<std::int64_t>(0, least_cost(std::move(sheets), need));
  }

  void keep_usable() {
    Columns usable;
    usable.at_least = found_.at_least;
    for (std::size_t i = 0; i < found_.all.size(); ++i) {
      if (!keeps_limits(found_.all[i].tree, job_)) continue;
      usable.times.push_back(i < found_.times.size() ? found_.times[i] : 0);
      usable.all.push_back(std::move(found_.all[i]));
    }
    found_ = std::move(usable);
  }

  const Job& job_;
  const ColumnEffort& effort_;
  Program program_;
  std::vector<BestSheet> sheets_;
  std::set<std::vector<Measure>> known_;
  Columns found_;
};

// Ends the search for whole numbers after so many parts of it.
void count_looks(glp_tree* tree, void* left) {
  if (glp_ios_reason(tree) == GLP_ISELECT && --*static_cast<int*>(left) < 0) glp_ios_terminate(tree);
}

}  // namespace

Columns generate_columns(const Job& job, const std::vector<Column>& start, std::int64_t cost,
                         const ColumnEffort& effort) {
  return Generation(job, effort).run(start, cost);
}

std::optional<std::vector<int>> whole_times(const Job& job, const std::vector<Column>& columns,
                                            std::int64_t below, int looks) {
  const Program program = program_of(job);
  for (const Column& column : columns) add_column(program.get(), job, column, true);
  // Cheaper than what is known, or nothing.
  const int row = glp_add_rows(program.get(), 1);
  std::vector<int> indices{0};
  std::vector<double> costs{0};
  for (std::size_t i = 0; i < columns.size(); ++i) {
    indices.push_back(static_cast<int>(i) + 1);
    costs.push_back(static_cast<double>(job.sheets[columns[i].sheet].cost));
  }
  glp_set_mat_row(program.get(), row, static_cast<int>(columns.size()), indices.data(), costs.data());
  glp_set_row_bnds(program.get(), row, GLP_UP, 0, static_cast<double>(below - 1));
  glp_smcp simplex;
  glp_init_smcp(&simplex);
  simplex.msg_lev = GLP_MSG_OFF;
  if (glp_simplex(program.get(), &simplex) != 0 || glp_get_status(program.get()) != GLP_OPT) return {};
  glp_iocp control;
  glp_init_iocp(&control);
  control.msg_lev = GLP_MSG_OFF;
  control.cb_func = count_looks;
  control.cb_info = &looks;
  glp_intopt(program.get(), &control);
  const int status = glp_mip_status(program.get());
  if (status != GLP_OPT && status != GLP_FEAS) return {};
  std::vector<int> times;
  for (std::size_t i = 0; i < columns.size(); ++i)
    times.push_back(static_cast<int>(std::lround(glp_mip_col_val(program.get(), static_cast<int>(i) + 1))));
  return times;
}

}  // namespace evenmat::cutting
