#include "solver/search/twins.h"

#include <algorithm>
#include <set>
#include <string>

namespace evenmat {
namespace {

// What the block says, with two boxes in each other's place; order left out.
std::vector<std::string> fingerprint(const Block& block, const std::vector<Sum>& raised,
                                     Variable first_helper, std::size_t a, std::size_t b) {
  const auto swapped = [&](const Sum& sum) {
    Sum other(sum.constant());
    for (const Term& term : sum.terms()) {
      Variable v = term.variable;
      if (v < first_helper) {
        if (v / 4 == a) {
          v = 4 * b + v % 4;
        } else if (v / 4 == b) {
          v = 4 * a + v % 4;
        }
      }
      other += Sum::of(v, term.factor);
    }
    std::string text = fraction_text(other.constant());
    for (const Term& term : other.terms()) {
      // Nearest distances are told by the gaps they are in, not by name.
      text += term.variable < first_helper ? " v" + std::to_string(term.variable) : " n";
      text += "*" + fraction_text(term.factor);
    }
    return text;
  };
  std::vector<std::string> all;
  for (const Relation& relation : block.relations) all.push_back(swapped(relation.sum));
  for (const OpenChoice& choice : block.choices) {
    std::vector<std::string> options;
    for (const Option& option : choice.options) {
      std::vector<std::string> parts;
      for (const Relation& relation : option.relations) parts.push_back(swapped(relation.sum));
      std::sort(parts.begin(), parts.end());
      options.emplace_back();
      for (const std::string& part : parts) options.back() += part + "&";
    }
    std::sort(options.begin(), options.end());
    all.emplace_back();
    for (const std::string& option : options) all.back() += option + "|";
  }
  for (const Sum& sum : raised) all.push_back("raise " + swapped(sum));
  std::sort(all.begin(), all.end());
  return all;
}

}  // namespace

std::vector<std::pair<std::size_t, std::size_t>> twins(const Block& block, const std::vector<Sum>& raised,
                                                       Variable first_helper,
                                                       const std::function<bool(std::size_t)>& counts,
                                                       const std::vector<Sum>& in_order) {
  std::set<std::size_t> boxes;
  for (const OpenChoice& choice : block.choices) {
    for (const Option& option : choice.options) {
      for (const Relation& relation : option.relations) {
        for (const Term& term : relation.sum.terms()) {
          const std::size_t box = term.variable / 4;
          if (term.variable < first_helper && counts(box)) boxes.insert(box);
        }
      }
    }
  }
  std::vector<std::pair<std::size_t, std::size_t>> found;
  std::vector<std::size_t> as_placed;
  for (const Sum& sum : in_order) {
    if (sum.terms().size() != 1 || sum.terms().front().variable >= first_helper) continue;
    const std::size_t box = sum.terms().front().variable / 4;
    if (boxes.erase(box) > 0) as_placed.push_back(box);
  }
  if (as_placed.size() < 2) return found;
  const std::vector<std::string> as_is = fingerprint(block, raised, first_helper, 0, 0);
  for (std::size_t i = 1; i < as_placed.size(); ++i) {
    if (fingerprint(block, raised, first_helper, as_placed[i - 1], as_placed[i]) == as_is)
      found.emplace_back(as_placed[i - 1], as_placed[i]);
  }
  return found;
}

}  // namespace evenmat
