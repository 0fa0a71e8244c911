// A small batch and its plan, put together by hand for tests of what is told of a plan.
#pragma once

#include <deque>
#include <string>
#include <string_view>
#include <vector>

#include "cli/cut/telling.h"
#include "model/read_card.h"
#include "solver/cut_batch.h"
#include "solver/size_card.h"

namespace evenmat::testing {

inline const std::string fern_fair = R"(title = "Fern fair"
cards = 10
spare = 1

[base]
fold  = "side"
front = "us A2"

[[layer]]
name   = "moss mat"
role   = "mat"
on     = "front"
border = "1/8"
paper  = "moss"

[[variant]]
name  = "for the choir"
cards = 4

[[paper]]
name   = "moss"
sheet  = "us letter"
have   = 4
weight = "80 lb cover"
)";

// Card files, sized, with the plan for them.
struct Planned {
  std::deque<Card> cards;
  std::deque<SizedCard> sized;
  std::vector<BatchCard> batch_cards;
  std::vector<MorePaper> more;
  CutBatch batch;

  void add(const std::string& file, std::string_view text);
  [[nodiscard]] CutTelling telling() const;
  PaperPlan& moss() { return batch.papers.front(); }
};

// Eleven mats of 4 x 5 1/4, seven plain and four for the choir: two sheets A give four each, a sheet B gives
// three and leaves 4 1/2 x 5 1/4.
Planned three_sheets();

}  // namespace evenmat::testing
