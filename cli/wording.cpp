#include "cli/wording.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

namespace evenmat {

std::string title_of(const Card& card) { return card.title.empty() ? "A card" : card.title; }

std::string_view role_name(Role role) {
  switch (role) {
    case Role::mat:
      return "mat";
    case Role::panel:
      return "panel";
    case Role::strip:
      return "strip";
    case Role::sentiment:
      return "sentiment";
    case Role::image:
      return "image";
    case Role::none:
      break;
  }
  return "";
}

std::string_view verdict_name(Verdict verdict) {
  switch (verdict) {
    case Verdict::buildable:
      return "buildable";
    case Verdict::conflict:
      return "conflict";
    case Verdict::undecided:
      break;
  }
  return "undecided";
}

std::string counted(int count, std::string_view thing) {
  return fmt::format("{} {}{}", count, thing, count == 1 ? "" : "s");
}

std::string listed(const std::vector<std::string>& names) {
  std::string text;
  for (std::size_t i = 0; i < names.size(); ++i) {
    text += (i == 0 ? "" : i + 1 == names.size() ? " and " : ", ") + names[i];
  }
  return text;
}

std::string joined(const std::vector<std::string>& parts, std::string_view by) {
  return fmt::format("{}", fmt::join(parts, by));
}

}  // namespace evenmat
