#include "cli/cut/batch_files.h"

#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <filesystem>
#include <string_view>
#include <utility>

#include "cli/clash.h"
#include "cli/files.h"
#include "cli/json_answer.h"
#include "cli/json_cut.h"
#include "cli/printable.h"
#include "cli/table.h"
#include "model/read_card.h"
#include "model/read_leftovers.h"
#include "model/words.h"

namespace evenmat {
namespace {

namespace fs = std::filesystem;

std::string called(const std::string& file) { return file == "-" ? "standard input" : file; }

// A file of leftovers as it was read; with mistakes there are no papers in it.
struct OpenedLeftovers {
  std::string text;
  MorePaper more;
  std::vector<Remark> mistakes;
  std::string trouble;  // it could not be read at all
};

OpenedLeftovers open_leftovers(const std::string& file) {
  OpenedLeftovers opened;
  opened.more.file = called(file);
  std::error_code ignored;
  FileText read;
  if (file.empty()) {
    read.trouble = "The name of a file of leftovers is empty.";
  } else if (fs::is_directory(file, ignored)) {
    read.trouble = fmt::format("{} is a folder, not a file of leftovers.", printable(file));
  } else {
    read = read_file(file);
  }
  if (!read.trouble.empty()) {
    opened.mistakes.push_back({{}, read.trouble});
    opened.trouble = read.trouble;
    return opened;
  }
  opened.text = std::move(read.text);
  LeftoversReading reading = read_leftovers(opened.text);
  opened.more.unit = reading.unit;
  opened.more.papers = std::move(reading.papers);
  opened.mistakes = std::move(reading.mistakes);
  return opened;
}

// Of a file of leftovers: papers that nothing is cut from may be misspelt, and would be left out in silence.
std::string unused_papers(const MorePaper& more, const CutBatch& batch) {
  std::vector<std::string> used;
  for (const PaperPlan& paper : batch.papers) used.push_back(paper.paper);
  std::vector<std::string> unused;
  for (const Paper& paper : more.papers) {
    const std::string& name = paper.name.value;
    if (std::find(used.begin(), used.end(), name) == used.end() &&
        std::find(unused.begin(), unused.end(), name) == unused.end())
      unused.push_back(name);
  }
  if (unused.empty()) return {};
  return fmt::format("evenmat: {}\n",
                     printable(fmt::format("{}: no card is cut from {}.{}", more.file, either(unused),
                                           unused.size() == 1 ? offer(unused.front(), used) : "")));
}

std::string limit_told(double limit) {
  return fmt::format("evenmat: The limit of {} s was reached first; --limit allows more.\n", limit);
}

class Planning {
 public:
  Planning(const BatchFiles& call, const Style& out, const Style& err, const Meanwhile& meanwhile)
      : call_(call), out_(out), err_(err), meanwhile_(meanwhile) {}

  BatchPlanning run() {
    const std::string trouble = named_twice();
    if (!trouble.empty()) return {nullptr, refused_call(trouble, call_.json)};
    open_all();
    if (!mistakes_.empty()) return {nullptr, refused()};
    size_all();
    if (std::any_of(sized().begin(), sized().end(),
                    [](const SizedCard& one) { return one.verdict != Verdict::buildable; }))
      return {nullptr, not_built()};
    const CutOptions options = options_left();
    for (const BatchMistake& one : mistakes_in_batch(made_->cards, made_->more, options)) {
      const Source source = opened()[one.card].source();
      mistakes_.push_back({source.name, one.remark});
      told_ += excerpt(source, one.remark, err_);
    }
    if (!mistakes_.empty()) return {nullptr, refused()};
    made_->batch = cut_batch(made_->cards, made_->more, options);
    return {std::move(made_), {}};
  }

 private:
  [[nodiscard]] std::vector<OpenedCard>& opened() const { return made_->opened; }
  [[nodiscard]] std::vector<SizedCard>& sized() const { return made_->sized; }

  // A stack of paper that is named twice would be counted twice.
  [[nodiscard]] std::string named_twice() const {
    std::vector<std::string> all = call_.files;
    all.insert(all.end(), call_.also.begin(), call_.also.end());
    for (std::size_t i = 0; i < all.size(); ++i) {
      for (std::size_t j = 0; j < i; ++j) {
        if (same_file(all[i], all[j]))
          return fmt::format("{} is named twice. Name it once.", printable(called(all[i])));
      }
    }
    return {};
  }

  void open_all() {
    std::vector<OpenedLeftovers> leftovers;
    for (const std::string& file : call_.files) opened().push_back(open_card(file, call_.json, err_));
    for (const std::string& file : call_.also) leftovers.push_back(open_leftovers(file));
    for (const OpenedCard& one : opened()) {
      for (const Remark& mistake : one.mistakes) mistakes_.push_back({one.name, mistake});
      told_ += one.refused.err;
    }
    for (OpenedLeftovers& one : leftovers) {
      const Source source{one.more.file, one.text};
      for (const Remark& mistake : one.mistakes) mistakes_.push_back({source.name, mistake});
      told_ += one.trouble.empty() ? excerpts(source, one.mistakes, err_)
                                   : fmt::format("evenmat: {}\n", one.trouble);
      made_->more.push_back(std::move(one.more));
    }
  }

  [[nodiscard]] Answer refused() const {
    return {Status::bad_input, call_.json ? json_mistakes_in_files(mistakes_) : "", told_};
  }

  void size_all() {
    sized().reserve(opened().size());
    for (const OpenedCard& one : opened()) {
      if (meanwhile_.at_work) meanwhile_.at_work(fmt::format("sizing {}", printable(one.name)));
      sized().push_back(size_card(*one.card, {.limit = seconds_left(), .seed = 0, .ranges = false}));
      made_->cards.push_back({one.name, &*one.card, &sized().back()});
      if (!states_at_top(one.text, "spare")) made_->no_spare_stated.push_back(made_->cards.size() - 1);
    }
  }

  // Of the limit; never none, so that what takes no time is still done.
  [[nodiscard]] double seconds_left() const {
    const std::chrono::duration<double> gone = std::chrono::steady_clock::now() - began_;
    return std::max(call_.limit - gone.count(), 0.01);
  }

  [[nodiscard]] CutOptions options_left() const {
    return {.limit = seconds_left(),
            .most = call_.most,
            .grain_along_fold = call_.grain_along_fold,
            .at_work = meanwhile_.at_work};
  }

  // Cards that cannot be built before those that are not settled.
  [[nodiscard]] Answer not_built() const {
    Verdict worst = Verdict::buildable;
    for (const SizedCard& one : sized()) worst = worse(worst, one.verdict);
    Answer answer;
    answer.status = worst == Verdict::conflict ? Status::cannot_be_built : Status::limit_reached;
    bool first = true;
    bool too_late = false;
    for (std::size_t i = 0; i < sized().size(); ++i) {
      if (sized()[i].verdict != worst) continue;
      too_late = too_late || sized()[i].time_ran_out;
      if (call_.json && first) answer.out = json_not_built(made_->cards[i]);
      if (!call_.json) answer.out += (first ? "" : "\n") + not_built_text(i);
      first = false;
    }
    if (worst == Verdict::undecided && too_late) answer.err = limit_told(call_.limit);
    return answer;
  }

  [[nodiscard]] std::string not_built_text(std::size_t index) const {
    const std::string file = printable(made_->cards[index].file);
    if (sized()[index].verdict == Verdict::undecided)
      return paragraph(fmt::format("{}: whether this card can be built as stated is not settled.", file));
    return paragraph(file + ":") + clash(opened()[index].source(), sized()[index], out_) +
           way_to_check(call_.files[index]);
  }

  const BatchFiles& call_;
  const Style& out_;
  const Style& err_;
  const Meanwhile& meanwhile_;
  std::chrono::steady_clock::time_point began_ = std::chrono::steady_clock::now();
  std::unique_ptr<PlannedBatch> made_ = std::make_unique<PlannedBatch>();
  std::vector<MistakeInFile> mistakes_;
  std::string told_;  // of them, for standard error
};

}  // namespace

BatchPlanning plan_batch(const BatchFiles& files, const Style& out, const Style& err,
                         const Meanwhile& meanwhile) {
  return Planning(files, out, err, meanwhile).run();
}

Status status_of(const CutBatch& batch) {
  switch (batch.verdict) {
    case CutVerdict::planned:
      return Status::done;
    case CutVerdict::short_of_paper:
      return Status::cannot_be_built;
    case CutVerdict::undecided:
      break;
  }
  return Status::limit_reached;
}

std::string limit_words(const CutBatch& batch, double limit) {
  if (!batch.time_ran_out) return {};
  if (batch.verdict == CutVerdict::undecided) return limit_told(limit);
  return fmt::format(
      "evenmat: The limit of {} s was reached with this plan in hand; with a longer --limit it may get "
      "better.\n",
      limit);
}

std::string unused_leftovers(const PlannedBatch& planned) {
  std::string told;
  for (const MorePaper& more : planned.more) told += unused_papers(more, planned.batch);
  return told;
}

}  // namespace evenmat
