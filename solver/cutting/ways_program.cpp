#include "solver/cutting/ways_program.h"

#include <algorithm>
#include <cmath>

#include "solver/cutting/best_sheet.h"

namespace evenmat::cutting {

Program program_of(const Job& job) {
  glp_term_out(GLP_OFF);
  Program program(glp_create_prob());
  glp_set_obj_dir(program.get(), GLP_MIN);
  glp_add_rows(program.get(), static_cast<int>(job.kinds.size() + job.sheets.size()));
  std::vector<int> wanted;
  for (const Kind& kind : job.kinds) wanted.push_back(kind.count);
  std::vector<std::optional<int>> have;
  for (const Sheet& sheet : job.sheets) have.push_back(sheet.have);
  set_wanted(program.get(), wanted, have);
  return program;
}

void set_wanted(glp_prob* program, const std::vector<int>& wanted,
                const std::vector<std::optional<int>>& have) {
  int row = 0;
  for (const int count : wanted) glp_set_row_bnds(program, ++row, GLP_LO, count, 0);
  for (const std::optional<int>& count : have) {
    ++row;
    if (count) {
      glp_set_row_bnds(program, row, GLP_UP, 0, *count);
    } else {
      glp_set_row_bnds(program, row, GLP_FR, 0, 0);
    }
  }
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

bool solve(glp_prob* program) {
  glp_smcp control;
  glp_init_smcp(&control);
  control.msg_lev = GLP_MSG_OFF;
  return glp_simplex(program, &control) == 0 && glp_get_status(program) == GLP_OPT;
}

std::optional<Worths> whole_worths(glp_prob* program, const Job& job) {
  double most_per_area = 0;
  std::vector<double> prices;
  for (std::size_t k = 0; k < job.kinds.size(); ++k) {
    const Kind& kind = job.kinds[k];
    prices.push_back(std::max(0.0, glp_get_row_dual(program, static_cast<int>(k) + 1)));
    most_per_area = std::max(most_per_area, prices.back() / static_cast<double>((kind.width + job.blade) *
                                                                                (kind.height + job.blade)));
  }
  if (most_per_area <= 0) return {};
  double most = 0;
  for (const Sheet& sheet : job.sheets) {
    const Measure area = (sheet.width + job.blade) * (sheet.height + job.blade);
    most = std::max(most, most_per_area * static_cast<double>(area));
  }
  Worths worths;
  worths.scale = std::floor(std::min(1e9, (BestSheet::most_worth - 1) / most));
  if (worths.scale < 1) return {};
  for (const double price : prices)
    worths.of_kinds.push_back(static_cast<std::int32_t>(std::floor(price * worths.scale)));
  return worths;
}

std::int32_t Worths::needed(glp_prob* program, const Job& job, std::size_t sheet) const {
  const int row = static_cast<int>(job.kinds.size() + sheet) + 1;
  const double price = std::min(0.0, glp_get_row_dual(program, row));
  const double cost = static_cast<double>(job.sheets[sheet].cost) - price + 1e-7;
  return static_cast<std::int32_t>(std::min(1e9, cost * scale));
}

}  // namespace evenmat::cutting
