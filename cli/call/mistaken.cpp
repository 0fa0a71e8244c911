#include "cli/call/mistaken.h"

#include <fmt/format.h>

#include <charconv>

#include "cli/json_answer.h"
#include "cli/printable.h"
#include "model/words.h"

namespace evenmat {
namespace {

// More than no seconds, and no more than a week of them.
std::optional<double> seconds(std::string_view text) {
  constexpr double week = 7 * 24 * 3600;
  double value = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (error != std::errc() || end != text.data() + text.size()) return {};
  if (!(value > 0) || value > week) return {};
  return value;
}

}  // namespace

Answer mistaken(const std::string& says, std::string_view command, bool json) {
  return {Status::bad_input, json ? json_mistakes({{.spot = {}, .says = says}}) : "",
          fmt::format("evenmat: {}\nSee: evenmat{}{} --help\n", printable(says), command.empty() ? "" : " ",
                      command)};
}

std::optional<Answer> take_limit(const std::string& limit, double& value, std::string_view command,
                                 bool json) {
  if (limit.empty()) return {};
  const std::optional<double> read = seconds(limit);
  if (!read) {
    return mistaken(fmt::format("--limit takes a number of seconds, such as 10 or 0.5, and {} is not one.",
                                in_quotes(limit)),
                    command, json);
  }
  value = *read;
  return {};
}

}  // namespace evenmat
