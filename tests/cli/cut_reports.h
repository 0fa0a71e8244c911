// What tests of the cut report share: its words on one line, so that they can be looked for.
#pragma once

#include <string>
#include <string_view>

#include "cli/cut/report.h"
#include "cli/printable.h"
#include "tests/catch.h"
#include "tests/cli/cut_plans.h"
#include "tests/cli/program.h"

namespace evenmat::testing {

inline bool has(const std::string& text, std::string_view part) {
  return text.find(part) != std::string::npos;
}

// On one line, single blanks: what is said, wherever lines end.
inline std::string flowing(const std::string& text) {
  std::string flow;
  for (const char c : text) {
    if (c != ' ' && c != '\n') {
      flow += c;
    } else if (!flow.empty() && flow.back() != ' ') {
      flow += ' ';
    }
  }
  return flow;
}

inline std::string told(const Planned& planned, bool most = false) {
  const std::string report = cut_report(planned.telling(), most);
  for (const std::string& line : lines(report)) {
    INFO(line);
    CHECK(columns(line) <= 80);
  }
  return flowing(report);
}

}  // namespace evenmat::testing
