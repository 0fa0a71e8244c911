#include "solver/batch/gather.h"

#include <algorithm>
#include <map>
#include <set>
#include <tuple>
#include <utility>

#include "solver/batch/offcuts.h"
#include "solver/batch/stock.h"
#include "solver/batch/things.h"

namespace evenmat::batch {
namespace {

// How a thing may lie on the sheets of its paper.
struct Lying {
  Size size;
  bool turned = false;  // `size` is that of the thing turned by a quarter
  bool free = true;     // may lie either way
  std::vector<bool> may;
};

// Things of one paper in the order in which they came, those together that are cut alike.
class Kinds {
 public:
  void add(const CutThing& thing, int count, Lying lying) {
    const bool wide = lying.free && lying.size.width > lying.size.height;
    Key key{wide ? lying.size.height : lying.size.width, wide ? lying.size.width : lying.size.height,
            lying.free, lying.may};
    const auto [found, is_new] = at_.try_emplace(std::move(key), needs_.pieces.size());
    if (is_new) {
      needs_.pieces.push_back({lying.size, true, lying.free, {}, 0});
      needs_.may.push_back(std::move(lying.may));
    }
    CutPiece& piece = needs_.pieces[found->second];
    PieceUse use;
    use.card = thing.card;
    use.version = thing.version;
    use.layer = thing.layer == nullptr ? "base" : thing.layer->piece->name.value;
    use.base = thing.layer == nullptr;
    use.count = count;
    use.rough = thing.rough;
    use.finished = thing.finished;
    use.turned = lying.turned != (piece.size != lying.size);
    piece.uses.push_back(std::move(use));
    piece.count += count;
  }

  PaperNeeds needs() { return std::move(needs_); }

 private:
  using Key = std::tuple<Rational, Rational, bool, std::vector<bool>>;
  std::map<Key, std::size_t> at_;
  PaperNeeds needs_;
};

// A scored base lies so that the grain runs along its scores, if that is asked for; what keeps its way up
// lies as it stands.
Lying lying_of(const CutThing& thing, const std::vector<CutSheet>& stock, bool up, bool by_grain,
               std::optional<bool> grain_down) {
  Lying lying;
  const bool grain_matters = by_grain && thing.scored;
  lying.free = !up && !grain_matters;
  lying.turned = !up && grain_matters && grain_down && *grain_down != thing.scores_down;
  lying.size = lying.turned ? Size{thing.size.height, thing.size.width} : thing.size;
  const bool down = thing.scores_down != lying.turned;
  for (const CutSheet& sheet : stock) {
    const bool along = !sheet.grain.empty() && grain_runs_down(sheet) == down;
    lying.may.push_back(thing.layer != nullptr || (!sheet.is_offcut() && (!grain_matters || along)));
  }
  return lying;
}

PaperNeeds needs_of(const std::string& paper, const std::vector<const CutThing*>& things,
                    const std::vector<BatchCard>& cards, const std::vector<MorePaper>& more,
                    const CutOptions& options, const Counts& counts) {
  const bool up = keeps_up(cards, more, paper);
  std::vector<Stack> stacks = stacks_of(cards, more, paper);
  std::optional<bool> grain_down;
  const bool any_scored =
      std::any_of(things.begin(), things.end(), [](const CutThing* thing) { return thing->scored; });
  if (options.grain_along_fold && any_scored) grain_down = lay_along_grain(stacks, up);
  std::vector<CutSheet> stock;
  for (Stack& stack : stacks) stock.push_back(std::move(stack.sheet));
  for (CutSheet& offcut : offcuts_of(cards, counts, paper)) stock.push_back(std::move(offcut));
  for (CutSheet& sheet : stock) sheet.up = up;

  Kinds kinds;
  for (const CutThing* thing : things) {
    const int count = counts[thing->card][thing->version] * thing->copies;
    if (count > 0)
      kinds.add(*thing, count, lying_of(*thing, stock, up, options.grain_along_fold, grain_down));
  }
  PaperNeeds needs = kinds.needs();
  needs.paper = paper;
  needs.stock = std::move(stock);
  return needs;
}

}  // namespace

Counts stated_counts(const std::vector<BatchCard>& cards) {
  Counts counts;
  for (const BatchCard& card : cards) {
    std::vector<int>& own = counts.emplace_back();
    for (const SizedVersion& version : card.sized->versions) own.push_back(version.cards);
    const auto first = std::find_if(own.begin(), own.end(), [](int count) { return count > 0; });
    if (first != own.end()) *first += card.card->spare;
  }
  return counts;
}

std::vector<PaperNeeds> gather(const std::vector<BatchCard>& cards, const std::vector<MorePaper>& more,
                               const CutOptions& options, const Counts& counts) {
  const std::vector<CutThing> things = things_cut(cards);
  std::vector<std::string> papers;
  std::map<std::string, std::vector<const CutThing*>> of_paper;
  for (const CutThing& thing : things) {
    std::vector<const CutThing*>& same = of_paper[thing.paper->value];
    if (same.empty()) papers.push_back(thing.paper->value);
    same.push_back(&thing);
  }
  std::vector<PaperNeeds> all;
  for (const std::string& paper : papers) {
    PaperNeeds needs = needs_of(paper, of_paper[paper], cards, more, options, counts);
    if (!needs.pieces.empty()) all.push_back(std::move(needs));
  }
  return all;
}

std::vector<NotCut> not_cut(const std::vector<BatchCard>& cards) {
  std::vector<NotCut> found;
  for (std::size_t c = 0; c < cards.size(); ++c) {
    std::set<std::string> told;
    const auto tell = [&](const std::string& layer, const char* why) {
      if (told.insert(layer).second) found.push_back({c, layer, why});
    };
    for (std::size_t v = 0; v < cards[c].sized->versions.size(); ++v) {
      if (cards[c].sized->versions[v].cards == 0) continue;
      const Design& design = design_of(cards[c], v);
      if (!design.base.paper) tell("base", "it states no paper");
      for (const Piece& piece : design.pieces) {
        if (piece.kind != Piece::Kind::layer || piece.stamped) continue;
        if (piece.cut == Cut::ready_made) {
          tell(piece.name.value, "it comes ready-made");
        } else if (!piece.paper) {
          tell(piece.name.value, "it states no paper");
        }
      }
    }
  }
  return found;
}

}  // namespace evenmat::batch
