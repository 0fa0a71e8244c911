// The four edges of anything that lies flat.
#pragma once

#include <string_view>

namespace evenmat {

enum class Edge { left, right, top, bottom };
inline constexpr Edge all_edges[] = {Edge::left, Edge::right, Edge::top, Edge::bottom};

// "left", "right", "top", "bottom".
std::string_view edge_name(Edge edge);
Edge opposite(Edge edge);
// Whether distances from it are measured across: left and right.
bool is_across(Edge edge);

}  // namespace evenmat
