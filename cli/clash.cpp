#include "cli/clash.h"

#include <fmt/format.h>

#include "cli/printable.h"
#include "cli/table.h"

namespace evenmat {
namespace {

std::string what_fails(const SizedCard& sized) {
  std::string variants;
  int count = 0;
  bool plain_stands = false;
  for (const SizedVersion& version : sized.versions) {
    if (version.name.empty()) plain_stands = version.verdict == Verdict::buildable;
    if (version.name.empty() || version.verdict != Verdict::conflict) continue;
    variants += (count++ > 0 ? ", \"" : "\"") + version.name + "\"";
  }
  if (count == 0 || !plain_stands) return "This card cannot be built as stated.";
  return fmt::format("The {} {} cannot be built as stated; the plain card can.",
                     count == 1 ? "variant" : "variants", variants);
}

}  // namespace

std::string clash(const Source& source, const SizedCard& sized, const Style& style) {
  std::string text = style.strong(paragraph(what_fails(sized)));
  if (!sized.off_marks.empty()) text += paragraph(sized.off_marks);
  if (sized.clash.empty()) {
    return text + paragraph("No wish is to blame: even as small as the marks allow, the layers do not fit.");
  }
  const std::string in = sized.clash_of.empty() ? "" : fmt::format(" in \"{}\"", sized.clash_of);
  text += paragraph(sized.clash.size() == 1 ? fmt::format("This cannot hold{}:", in)
                                            : fmt::format("These cannot all hold{}:", in));
  for (const ClashingRule& rule : sized.clash) {
    text += "\n" + excerpt(source, {rule.spot, rule.says}, style);
  }
  if (!sized.clash_is_smallest) {
    text += "\n" + paragraph("Time ran out before it was known whether fewer of these are to blame.");
  }
  return text;
}

std::string way_to_check(const std::string& file) {
  const bool quoted = file.find_first_of(" \t") != std::string::npos;
  return "\n" +
         wrapped(
             fmt::format("evenmat check {0}{1}{0} tells why, and what mends it.", quoted ? "\"" : "", file),
             page_width) +
         "\n";
}

}  // namespace evenmat
