#include "cli/progress.h"

#include <string>

#include "cli/printable.h"
#include "cli/table.h"

namespace evenmat {
namespace {

constexpr double quiet = 0.5;  // seconds

}  // namespace

void Progress::at_work(std::string_view what) {
  if (seconds_() < quiet) return;
  const std::string line = shortened(what, page_width - 1);
  put_("\r" + padded(line, shown_));
  shown_ = columns(line);
}

void Progress::clear() {
  if (shown_ > 0) put_("\r" + padded("", shown_) + "\r");
  shown_ = 0;
}

}  // namespace evenmat
