// A drawing on its way into a file: rendered by the ending of its name and written whole or not at all, and
// what is told of it.
#pragma once

#include <string>
#include <vector>

#include "cli/drawing/page.h"
#include "cli/new_file.h"

namespace evenmat {

// What is known to stand in the way, as a sentence; empty if nothing is: the file itself, one of those that
// are read, or the want of any font.
std::string trouble_with_drawing(const NewFile& file, const std::vector<std::string>& read);

// The sentence that says why it was not written; empty if it was.
std::string write_drawing(const NewFile& file, const Drawing& drawing, double dots = 144);

// "3 pages", "3 pages below one another".
std::string pages_words(const Drawing& drawing, const std::string& path);

// A line for standard error about letters that no font here has; empty if there are none.
std::string missing_letters(const Drawing& drawing);

}  // namespace evenmat
