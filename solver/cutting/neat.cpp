#include "solver/cutting/neat.h"

#include <algorithm>
#include <functional>
#include <map>
#include <numeric>
#include <optional>
#include <set>
#include <utility>

#include "solver/cutting/neat_sheet.h"
#include "solver/cutting/steps.h"
#include "solver/cutting/tree_shape.h"

namespace evenmat::cutting {
namespace {

constexpr std::size_t most_layouts = 60;   // of which each is looked at by itself
constexpr std::int64_t most_pieces = 400;  // on a sheet

__extension__ using Wide = __int128;  // areas times numbers
using Counts = std::vector<int>;

struct Content {
  std::size_t sheet = 0;
  int times = 1;
  Counts gives;
  const Part* tree = nullptr;  // as it was
};

// The sheets with these contents, each as neat as was found; nothing if one could not be made at all.
std::optional<std::vector<Layout>> laid_out(std::vector<Content> contents, const Job& job) {
  std::vector<Layout> layouts;
  Settings known;
  // What is cut most often says which settings the others would do well to use.
  std::stable_sort(contents.begin(), contents.end(),
                   [](const Content& a, const Content& b) { return a.times > b.times; });
  for (const Content& content : contents) {
    const std::int64_t pieces = std::accumulate(content.gives.begin(), content.gives.end(), std::int64_t{0});
    std::optional<Part> tree;
    if (pieces <= most_pieces) tree = neatest_sheet(job, content.sheet, content.gives, known);
    if (content.tree != nullptr &&
        (!tree || neatness_of(*content.tree, known, nullptr) <= neatness_of(*tree, known, nullptr))) {
      tree = *content.tree;
    }
    if (!tree) return {};
    Settings made;
    neatness_of(*tree, known, &made);
    known = std::move(made);
    layouts.push_back({content.sheet, content.times, std::move(*tree)});
  }
  return layouts;
}

std::vector<Content> contents_of(const std::vector<Layout>& layouts, const Job& job) {
  std::vector<Content> contents;
  for (const Layout& layout : layouts) {
    Counts gives = pieces_in(layout.root, job.kinds.size());
    const auto alike = std::find_if(contents.begin(), contents.end(), [&](const Content& one) {
      return one.sheet == layout.sheet && one.gives == gives;
    });
    if (alike != contents.end()) {
      alike->times += layout.times;
    } else {
      contents.push_back({layout.sheet, layout.times, std::move(gives), &layout.root});
    }
  }
  return contents;
}

// Of one size, how many sheets there are and what they give together.
struct Pooled {
  std::size_t size = 0;
  int sheets = 0;
  Counts all;
};

std::vector<Pooled> together(const std::vector<Content>& contents) {
  std::map<std::size_t, Pooled> of_size;
  for (const Content& one : contents) {
    Pooled& pooled = of_size[one.sheet];
    pooled.size = one.sheet;
    pooled.sheets += one.times;
    pooled.all.resize(one.gives.size(), 0);
    for (std::size_t k = 0; k < pooled.all.size(); ++k) pooled.all[k] += one.times * one.gives[k];
  }
  std::vector<Pooled> pooled;
  for (auto& [size, one] : of_size) pooled.push_back(std::move(one));
  return pooled;
}

// The pieces of all sheets of one size dealt out evenly, so that most of the sheets are alike.
std::vector<Content> dealt_out(const std::vector<Content>& contents) {
  std::vector<Content> dealt;
  std::vector<Pooled> pools = together(contents);
  for (Pooled& pool : pools) {
    Counts each = pool.all;
    for (int& count : each) count = (count + pool.sheets - 1) / pool.sheets;
    for (int i = 0; i < pool.sheets; ++i) {
      Content one{pool.size, 1, each, nullptr};
      for (std::size_t k = 0; k < pool.all.size(); ++k) {
        one.gives[k] = std::min(each[k], pool.all[k]);
        pool.all[k] -= one.gives[k];
      }
      if (std::all_of(one.gives.begin(), one.gives.end(), [](int count) { return count == 0; })) continue;
      if (!dealt.empty() && dealt.back().sheet == pool.size && dealt.back().gives == one.gives) {
        ++dealt.back().times;
      } else {
        dealt.push_back(std::move(one));
      }
    }
  }
  return dealt;
}

// The kind that takes most paper dealt out evenly, all others on the last sheet.
std::vector<Content> gathered(const std::vector<Content>& contents, const Job& job) {
  std::vector<Content> all_of;
  std::vector<Pooled> pools = together(contents);
  for (Pooled& pool : pools) {
    std::size_t most = 0;
    const auto area = [&](std::size_t k) {
      return Wide(job.kinds[k].width * job.kinds[k].height) * pool.all[k];
    };
    for (std::size_t k = 1; k < pool.all.size(); ++k) {
      if (area(k) > area(most)) most = k;
    }
    const int each = (pool.all[most] + pool.sheets - 1) / pool.sheets;
    Counts last = pool.all;
    last[most] = std::max(0, pool.all[most] - each * (pool.sheets - 1));
    Content usual{pool.size, pool.sheets - 1, Counts(pool.all.size(), 0), nullptr};
    usual.gives[most] = each;
    if (each == 0 || each * usual.times > pool.all[most]) return {};
    if (usual.times > 0) all_of.push_back(std::move(usual));
    all_of.push_back({pool.size, 1, std::move(last), nullptr});
  }
  return all_of;
}

// How many pieces of a kind the sheet gives in rows and columns.
int in_rows(const Kind& kind, const Sheet& sheet, Measure blade) {
  const auto fit = [&](Measure width, Measure height) {
    return static_cast<int>(((sheet.width + blade) / (width + blade)) *
                            ((sheet.height + blade) / (height + blade)));
  };
  return std::max(kind.upright ? fit(kind.width, kind.height) : 0,
                  kind.turned ? fit(kind.height, kind.width) : 0);
}

// Every kind from sheets of its own, where that takes no more of them; as full as they go, the last the
// emptiest.
std::vector<Content> kind_by_kind(const std::vector<Content>& contents, const Job& job) {
  std::vector<Content> apart;
  std::vector<Pooled> pools = together(contents);
  for (Pooled& pool : pools) {
    for (std::size_t k = 0; k < pool.all.size(); ++k) {
      const int full = std::max(1, in_rows(job.kinds[k], job.sheets[pool.size], job.blade));
      const auto push = [&](int times, int count) {
        if (times == 0 || count == 0) return;
        apart.push_back({pool.size, times, Counts(pool.all.size(), 0), nullptr});
        apart.back().gives[k] = count;
        pool.sheets -= times;
      };
      push(pool.all[k] / full, full);
      push(1, pool.all[k] % full);
    }
    if (pool.sheets < 0) return {};
  }
  return apart;
}

}  // namespace

Trouble trouble_of(const std::vector<Layout>& layouts, const Job& job) {
  std::vector<Layout> ordered = layouts;
  const std::vector<bool> none(job.kinds.size(), false);
  put_in_cutting_order(ordered, none, job.blade, 0);
  const Work work = work_of(ordered, none, job.blade, 0);
  std::set<Measure> settings;
  for (const Step& step : work.steps) settings.insert(step.set);
  std::int64_t cuts = 0;
  std::int64_t left = 0;
  const std::function<void(const Part&)> look = [&](const Part& part) {
    if (part.what == Part::What::waste && !job.sheets.empty())
      left = std::max(left, part.width * part.height);
    for (const Part& one : part.parts) look(one);
  };
  for (std::size_t i = 0; i < ordered.size(); ++i) {
    cuts += static_cast<std::int64_t>(work.cuts[i].size()) * ordered[i].times;
    look(ordered[i].root);
  }
  return {settings.size(), cuts, work.steps.size(), -left};
}

std::vector<Layout> made_neat(const std::vector<Layout>& layouts, const Job& job) {
  if (layouts.size() > most_layouts) return layouts;
  std::vector<Layout> best = layouts;
  Trouble least = trouble_of(best, job);
  const auto offer = [&](const std::optional<std::vector<Layout>>& other) {
    if (!other) return;
    const Trouble trouble = trouble_of(*other, job);
    if (std::tuple(trouble, other->size()) >= std::tuple(least, best.size())) return;
    least = trouble;
    best = *other;
  };
  const std::vector<Content> contents = contents_of(layouts, job);
  offer(laid_out(contents, job));
  offer(laid_out(dealt_out(contents), job));
  for (const std::vector<Content>& other : {kind_by_kind(contents, job), gathered(contents, job)}) {
    if (!other.empty()) offer(laid_out(other, job));
  }
  return best;
}

}  // namespace evenmat::cutting
