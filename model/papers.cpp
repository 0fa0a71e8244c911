#include "model/papers.h"

#include <algorithm>

namespace evenmat {

Maybe<Rational> stated_of_paper(const std::vector<Paper>& papers, const Maybe<std::string>& name,
                                Maybe<Rational> Paper::*what) {
  if (!name) return std::nullopt;
  const auto found = std::find_if(papers.begin(), papers.end(), [&](const Paper& paper) {
    return paper.name.value == name->value && (paper.*what).has_value();
  });
  return found == papers.end() ? std::nullopt : (*found).*what;
}

}  // namespace evenmat
