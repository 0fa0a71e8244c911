// Writing a file that appears whole or not at all, and over nothing it may not be written over.
#pragma once

#include <string>
#include <string_view>

namespace evenmat {

struct NewFile {
  std::string path;
  bool force = false;    // write over a file that is there
  std::string original;  // never written over, by whatever name it is called; "-": standard input
};

// What is known to stand in the way of writing it, as a sentence; empty if nothing is.
std::string trouble_with(const NewFile& file);

// Writes it, and gives the sentence that says why it could not, or nothing. A link to a file that is there is
// followed.
std::string write_new_file(const NewFile& file, std::string_view text);

}  // namespace evenmat
