// A drawing written down as SVG, PDF or PNG. Only file with its source that includes cairo, but for the
// measuring of text.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "cli/drawing/page.h"

namespace evenmat {
inline namespace drawing {

enum class FileKind { svg, pdf, png };
// By the ending of a file's name, in whatever case.
std::optional<FileKind> format_of(const std::string& path);

struct Rendered {
  std::string bytes;
  std::string trouble;  // why there are none, as a sentence
};

// PDF: page by page, text that can be searched and copied. SVG and PNG: one picture, the pages below one
// another, each as tall as what is on it; letters are outlines there, so that no text can be taken for
// anything else. `dots`: of PNG, to the inch.
Rendered render(const Drawing& drawing, FileKind kind, double dots = 144);

// How large each page is in what is written, and how far down it begins there: 0 where pages stand alone.
std::vector<Box> places_of_pages(const Drawing& drawing, FileKind kind);

}  // namespace drawing
}  // namespace evenmat
