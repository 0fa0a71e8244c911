// What is known of a paper by its name: entries of one name may state different things of it.
#pragma once

#include <string>
#include <vector>

#include "model/card.h"

namespace evenmat {

// What the first paper of that name which states it says of its thickness (grammage); absent when none does.
Maybe<Rational> stated_of_paper(const std::vector<Paper>& papers, const Maybe<std::string>& name,
                                Maybe<Rational> Paper::*what);

}  // namespace evenmat
