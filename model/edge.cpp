#include "model/edge.h"

namespace evenmat {

std::string_view edge_name(Edge edge) {
  switch (edge) {
    case Edge::left:
      return "left";
    case Edge::right:
      return "right";
    case Edge::top:
      return "top";
    case Edge::bottom:
      break;
  }
  return "bottom";
}

Edge opposite(Edge edge) {
  switch (edge) {
    case Edge::left:
      return Edge::right;
    case Edge::right:
      return Edge::left;
    case Edge::top:
      return Edge::bottom;
    case Edge::bottom:
      break;
  }
  return Edge::top;
}

bool is_across(Edge edge) { return edge == Edge::left || edge == Edge::right; }

}  // namespace evenmat
