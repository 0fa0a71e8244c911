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

namespace evenmat::cutting {
namespace {

struct DeleteProgram {
  void operator()(glp_prob* program) const { glp_delete_prob(program); }
};
using Program = std::unique_ptr<glp_prob, DeleteProgram>;

// A row for each kind, at least as many as are wanted, then one for each sheet, at most as many as there are.
Program program_of(const Job& job) {
  glp_term_out(GLP_OFF);
  Program program(glp_create_prob());
  glp_set_obj_dir(program.get(), GLP_MIN);
  glp_add_rows(program.get(), static_cast<int>(job.kinds.size() + job.sheets.size()));
  int row = 0;
  for (const Kind& kind : job.kinds) glp_set_row_bnds(program.get(), ++row, GLP_LO, kind.count, 0);
  for (const Sheet& sheet : job.sheets) {
    ++row;
    if (sheet.have) {
      glp_set_row_bnds(program.get(), row, GLP_UP, 0, *sheet.have);
    } else {
      glp_set_row_bnds(program.get(), row, GLP_FR, 0, 0);
    }
  }
  return program;
}

void add_column(glp_prob* program, const Job& job, const Column& column, bool whole) {
  std::vector<int> rows{0};
  std::vector<double> values{0};
  for (std::size_t k = 0; k < column.gives.size(); ++k) {
    if (column.gives[k] == 0) continue;
    rows.push_back(static_cast<int>(k) + 1);
    values.push_back(column.gives[k]);
  }
  rows.push_back(static_cast<int>(job.kinds.size() + column.sheet) + 1);
  values.push_back(1);
  const int index = glp_add_cols(program, 1);
  glp_set_col_bnds(program, index, GLP_LO, 0, 0);
  if (whole) glp_set_col_kind(program, index, GLP_IV);
  glp_set_obj_coef(program, index, static_cast<double>(job.sheets[column.sheet].cost));
  glp_set_mat_col(program, index, static_cast<int>(rows.size()) - 1, rows.data(), values.data());
}

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
    if (!mix()) return std::move(found_);
    for (int i = 1; i <= glp_get_num_cols(program_.get()); ++i)
      found_.times.push_back(glp_get_col_prim(program_.get(), i));
    if (found_.at_least < cost) dive();
    keep_usable();
    return std::move(found_);
  }

 private:
  [[nodiscard]] bool is_late() const {
    return effort_.deadline && std::chrono::steady_clock::now() >= *effort_.deadline;
  }

  // The best mix of the ways known; false where there is none, or no time.
  bool mix() {
    if (is_late()) return false;
    glp_smcp control;
    glp_init_smcp(&control);
    control.msg_lev = GLP_MSG_OFF;
    return glp_simplex(program_.get(), &control) == 0 && glp_get_status(program_.get()) == GLP_OPT;
  }

  void dive() {
    std::vector<int> wanted;
    for (const Kind& kind : job_.kinds) wanted.push_back(kind.count);
    std::vector<std::optional<int>> have;
    for (const Sheet& sheet : job_.sheets) have.push_back(sheet.have);
    while (mix()) {
      std::size_t best = found_.all.size();
      double most = 1e-3;
      for (std::size_t i = 0; i < found_.all.size(); ++i) {
        const double times = glp_get_col_prim(program_.get(), static_cast<int>(i) + 1);
        if (times <= most) continue;
        const Column& column = found_.all[i];
        bool possible = keeps_limits(column.tree, job_) && (!have[column.sheet] || *have[column.sheet] > 0);
        for (std::size_t k = 0; possible && k < wanted.size(); ++k) possible = column.gives[k] <= wanted[k];
        if (!possible) continue;
        best = i;
        most = times;
      }
      if (best == found_.all.size()) return;
      const Column& column = found_.all[best];
      int times = std::max(1, static_cast<int>(std::floor(most + 1e-6)));
      for (std::size_t k = 0; k < wanted.size(); ++k) {
        if (column.gives[k] > 0) times = std::min(times, wanted[k] / column.gives[k]);
      }
      if (have[column.sheet]) times = std::min(times, *have[column.sheet]);
      found_.together.push_back({best, times});
      for (std::size_t k = 0; k < wanted.size(); ++k) {
        wanted[k] -= times * column.gives[k];
        glp_set_row_bnds(program_.get(), static_cast<int>(k) + 1, GLP_LO, wanted[k], 0);
      }
      if (have[column.sheet]) {
        *have[column.sheet] -= times;
        glp_set_row_bnds(program_.get(), static_cast<int>(job_.kinds.size() + column.sheet) + 1, GLP_UP, 0,
                         *have[column.sheet]);
      }
      for (int asking = 0; asking < effort_.askings_a_dive; ++asking) {
        if (!mix() || !ask()) break;
      }
    }
  }

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
    double most_per_area = 0;
    std::vector<double> prices;
    for (std::size_t k = 0; k < job_.kinds.size(); ++k) {
      const double price = std::max(0.0, glp_get_row_dual(program_.get(), static_cast<int>(k) + 1));
      prices.push_back(price);
      most_per_area =
          std::max(most_per_area, price / static_cast<double>((job_.kinds[k].width + job_.blade) *
                                                              (job_.kinds[k].height + job_.blade)));
    }
    if (most_per_area <= 0) return false;
    double most = 0;
    for (const Sheet& sheet : job_.sheets)
      most = std::max(most, most_per_area * static_cast<double>((sheet.width + job_.blade) *
                                                                (sheet.height + job_.blade)));
    const double scale = std::floor(std::min(1e9, (BestSheet::most_worth - 1) / most));
    if (scale < 1) return false;
    std::vector<std::int32_t> worths;
    for (const double price : prices) worths.push_back(static_cast<std::int32_t>(std::floor(price * scale)));

    std::vector<std::int32_t> sheet_worth;
    bool helped = false;
    for (std::size_t s = 0; s < sheets_.size(); ++s) {
      sheet_worth.push_back(sheets_[s].most(worths));
      const double price =
          std::min(0.0, glp_get_row_dual(program_.get(), static_cast<int>(job_.kinds.size() + s) + 1));
      const double gain = sheet_worth.back() / scale + price - static_cast<double>(job_.sheets[s].cost);
      if (gain > 1e-7 && sheet_worth.back() > 0) {
        Column column{s, sheets_[s].tree(), {}};
        column.gives = pieces_in(column.tree, job_.kinds.size());
        helped = add(column) || helped;
      }
    }
    found_.at_least = std::max(found_.at_least, bound(worths, sheet_worth));
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
    std::vector<std::size_t> index(found_.all.size(), 0);
    for (std::size_t i = 0; i < found_.all.size(); ++i) {
      if (!keeps_limits(found_.all[i].tree, job_)) continue;
      index[i] = usable.all.size();
      usable.times.push_back(i < found_.times.size() ? found_.times[i] : 0);
      usable.all.push_back(std::move(found_.all[i]));
    }
    for (const Times& one : found_.together) usable.together.push_back({index[one.way], one.times});
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
