// Reading a card file and writing an answer: all that the program does with files and streams.
#pragma once

#include <string>
#include <string_view>

#include "cli/answer.h"

namespace evenmat {

// Either the text is whole, or `trouble` says why it is not there.
struct FileText {
  std::string text;
  std::string trouble;
};

// The file at `path`, or standard input for "-". Refused over `most_file_bytes`.
FileText read_file(const std::string& path);

// Whether two names are of one file, whatever they are; "-" is standard input.
bool same_file(const std::string& a, const std::string& b);

// Writes all of `text` to an open file or stream: 0, or the error (an `errno`) that kept it from that.
int write_whole(int stream, std::string_view text);

// Writes both streams and gives the exit status. A reader who stops listening is no trouble; an answer that
// cannot be written otherwise is. `earlier`: the error with which a part of the answer, written before the
// rest was known, could not be.
int deliver(const Answer& answer, int earlier = 0);

// Dress for a stream (1 or 2): colour on a terminal that knows it, unless NO_COLOR is set.
Style style_for(int stream);

}  // namespace evenmat
