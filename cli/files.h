// Reading a card file and writing an answer: all that the program does with files and streams.
#pragma once

#include <string>

#include "cli/answer.h"

namespace evenmat {

// Either the text is whole, or `trouble` says why it is not there.
struct FileText {
  std::string text;
  std::string trouble;
};

// The file at `path`, or standard input for "-". Refused over `most_file_bytes`.
FileText read_file(const std::string& path);

// Writes both streams and gives the exit status. A reader who stops listening is no trouble; an answer that
// cannot be written otherwise is.
int deliver(const Answer& answer);

// Dress for a stream (1 or 2): colour on a terminal that knows it, unless NO_COLOR is set.
Style style_for(int stream);

}  // namespace evenmat
