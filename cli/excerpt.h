// Remarks about a card file as they are shown: where, the line itself, a caret under the spot, the sentence.
// What the sentences say is settled by who makes them.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "cli/answer.h"
#include "model/spot.h"

namespace evenmat {

// The text that spots point into. Without a name it is one line typed at the prompt, and no line numbers
// show.
struct Source {
  std::string name;
  std::string_view text;
};

// "NAME:LINE:COLUMN: sentence", the line with its number, and the caret; only the sentence (behind the
// name) for a remark without a place. Lines are trimmed around the spot to fit 80 columns. Ends with a line
// end.
std::string excerpt(const Source& source, const Remark& remark, const Style& style);

// The excerpts of `remarks`, the first fifty where there are more.
std::string excerpts(const Source& source, const std::vector<Remark>& remarks, const Style& style);

// The line with its number, and the sentence behind the caret, wrapped within the page; the sentence alone
// for a remark without a place. Ends with a line end.
std::string noted_line(const Source& source, const Remark& remark, const Style& style);

// Such lines for several remarks, below a heading and behind an empty line; empty if there are none.
std::string noted_lines(const Source& source, std::string_view heading, const std::vector<Remark>& remarks,
                        const Style& style);

// The text from a spot on; empty for one without a place, or outside the text.
std::string_view text_at(const Source& source, const Spot& spot);

// The line and caret alone; empty for a spot without a place, or outside the text. Ends with a line end.
std::string pointed_line(const Source& source, const Spot& spot, const Style& style);

}  // namespace evenmat
