#include "cli/report/telling.h"

#include <algorithm>

#include "model/faces.h"

namespace evenmat {

std::string name_of_below(const Piece& piece, const Base& base) {
  const std::vector<std::string> names = face_names(base);
  const std::string& on = piece.on.value;
  return std::find(names.begin(), names.end(), on) != names.end() ? "the " + on : on;
}

}  // namespace evenmat
