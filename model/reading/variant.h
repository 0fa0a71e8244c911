// A variant: the tables of the plain card with its changes made, read once more.
#pragma once

#include <optional>
#include <vector>

#include "model/card.h"
#include "model/reading/document.h"
#include "model/reading/parts.h"
#include "model/reading/table.h"

namespace evenmat::reading {

// `root`: the whole file, and `stock` what of it bears on every design. `context` holds the mistakes of the
// plain card; one that the variant makes again is not told twice.
Variant read_variant(const Value& value, const Value& root, const Stock& stock, Context& context);

}  // namespace evenmat::reading
