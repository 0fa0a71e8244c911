#include "cli/cut_command.h"

#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <filesystem>
#include <string_view>
#include <utility>

#include "cli/clash.h"
#include "cli/cut/report.h"
#include "cli/files.h"
#include "cli/json_answer.h"
#include "cli/json_cut.h"
#include "cli/leftover_file.h"
#include "cli/new_file.h"
#include "cli/opened_card.h"
#include "cli/printable.h"
#include "cli/table.h"
#include "model/read_card.h"
#include "model/read_leftovers.h"
#include "model/words.h"
#include "solver/cut_batch.h"

namespace evenmat {
namespace {

namespace fs = std::filesystem;

std::string called(const std::string& file) { return file == "-" ? "standard input" : file; }

bool same_file(const std::string& a, const std::string& b) {
  std::error_code ignored;
  return a == b || fs::equivalent(a == "-" ? "/dev/stdin" : a, b == "-" ? "/dev/stdin" : b, ignored);
}

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

class Cutting {
 public:
  Cutting(const CutCall& call, const Style& out, const Style& err, const Meanwhile& meanwhile)
      : call_(call), out_(out), err_(err), meanwhile_(meanwhile) {}

  Answer answer() {
    const std::string trouble = trouble_with_files();
    if (!trouble.empty()) return refused_call(trouble, call_.json);
    open_all();
    if (!mistakes_.empty()) return refused();
    size_all();
    if (std::any_of(sized_.begin(), sized_.end(),
                    [](const SizedCard& one) { return one.verdict != Verdict::buildable; }))
      return not_built();
    const CutOptions options = options_left();
    for (const BatchMistake& one : mistakes_in_batch(cards_, more_, options)) {
      const Source source = opened_[one.card].source();
      mistakes_.push_back({source.name, one.remark});
      told_ += excerpt(source, one.remark, err_);
    }
    if (!mistakes_.empty()) return refused();
    return planned(cut_batch(cards_, more_, options));
  }

 private:
  [[nodiscard]] std::vector<std::string> all_files() const {
    std::vector<std::string> all = call_.files;
    all.insert(all.end(), call_.also.begin(), call_.also.end());
    return all;
  }

  // A stack of paper that is named twice would be counted twice.
  [[nodiscard]] std::string trouble_with_files() const {
    const std::vector<std::string> all = all_files();
    for (std::size_t i = 0; i < all.size(); ++i) {
      for (std::size_t j = 0; j < i; ++j) {
        if (same_file(all[i], all[j]))
          return fmt::format("{} is named twice. Name it once.", printable(called(all[i])));
      }
    }
    return call_.keep ? trouble_with_keeping() : "";
  }

  [[nodiscard]] std::string trouble_with_keeping() const {
    for (const std::string& file : all_files()) {
      if (same_file(*call_.keep, file) && *call_.keep != "-") {
        return fmt::format(
            "{} is read for this plan, and is never written over. Keep what is left in another "
            "file.",
            printable(*call_.keep));
      }
    }
    return trouble_with(target());
  }

  [[nodiscard]] NewFile target() const {
    return {.path = call_.keep.value_or(""), .force = call_.force, .original = call_.files.front()};
  }

  void open_all() {
    for (const std::string& file : call_.files) opened_.push_back(open_card(file, call_.json, err_));
    for (const std::string& file : call_.also) leftovers_.push_back(open_leftovers(file));
    for (const OpenedCard& one : opened_) {
      for (const Remark& mistake : one.mistakes) mistakes_.push_back({one.name, mistake});
      told_ += one.refused.err;
    }
    for (OpenedLeftovers& one : leftovers_) {
      const Source source{one.more.file, one.text};
      for (const Remark& mistake : one.mistakes) mistakes_.push_back({source.name, mistake});
      told_ += one.trouble.empty() ? excerpts(source, one.mistakes, err_)
                                   : fmt::format("evenmat: {}\n", one.trouble);
      more_.push_back(std::move(one.more));
    }
  }

  [[nodiscard]] Answer refused() const {
    return {Status::bad_input, call_.json ? json_mistakes_in_files(mistakes_) : "", told_};
  }

  void size_all() {
    sized_.reserve(opened_.size());
    for (const OpenedCard& one : opened_) {
      if (meanwhile_.at_work) meanwhile_.at_work(fmt::format("sizing {}", printable(one.name)));
      sized_.push_back(size_card(*one.card, {.limit = seconds_left(), .seed = 0, .ranges = false}));
      cards_.push_back({one.name, &*one.card, &sized_.back()});
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

  [[nodiscard]] std::string limit_told() const {
    return fmt::format("evenmat: The limit of {} s was reached first; --limit allows more.\n", call_.limit);
  }

  // Cards that cannot be built before those that are not settled.
  [[nodiscard]] Answer not_built() const {
    Verdict worst = Verdict::buildable;
    for (const SizedCard& one : sized_) worst = worse(worst, one.verdict);
    Answer answer;
    answer.status = worst == Verdict::conflict ? Status::cannot_be_built : Status::limit_reached;
    bool first = true;
    bool too_late = false;
    for (std::size_t i = 0; i < sized_.size(); ++i) {
      if (sized_[i].verdict != worst) continue;
      too_late = too_late || sized_[i].time_ran_out;
      if (call_.json && first) answer.out = json_not_built(cards_[i]);
      if (!call_.json) answer.out += (first ? "" : "\n") + not_built_text(i);
      first = false;
    }
    if (worst == Verdict::undecided && too_late) answer.err = limit_told();
    return answer;
  }

  [[nodiscard]] std::string not_built_text(std::size_t index) const {
    const std::string file = printable(cards_[index].file);
    if (sized_[index].verdict == Verdict::undecided)
      return paragraph(fmt::format("{}: whether this card can be built as stated is not settled.", file));
    return paragraph(file + ":") + clash(opened_[index].source(), sized_[index], out_) +
           way_to_check(call_.files[index]);
  }

  [[nodiscard]] Answer planned(const CutBatch& batch) const {
    Answer answer;
    if (batch.verdict == CutVerdict::short_of_paper) answer.status = Status::cannot_be_built;
    if (batch.verdict == CutVerdict::undecided) answer.status = Status::limit_reached;
    for (const MorePaper& more : more_) answer.err += unused_papers(more, batch);
    std::optional<std::string> kept;
    std::string kept_told;
    if (call_.keep && batch.verdict == CutVerdict::planned) {
      const std::string text = leftover_file(cards_, more_, batch);
      const std::string trouble = text.empty() ? "" : write(text);
      if (!trouble.empty() && call_.json) return refused_call(trouble, true);
      if (!trouble.empty()) {
        answer.status = Status::bad_input;
        answer.err += fmt::format("evenmat: {} Nothing was written.\n", trouble);
      } else if (text.empty()) {
        answer.err += fmt::format("evenmat: Nothing worth keeping is left: nothing was written to {}.\n",
                                  printable(*call_.keep));
      } else {
        kept = call_.keep;
        kept_told = paragraph(fmt::format("What is left was written to {}.", printable(*kept)));
      }
    } else if (call_.keep) {
      answer.err += fmt::format("evenmat: There is no plan for the whole batch: nothing was written to {}.\n",
                                printable(*call_.keep));
    }
    const CutTelling telling{cards_, more_, batch, out_, no_spare_stated()};
    answer.out = call_.json ? json_cut(cards_, batch, kept) : cut_report(telling, call_.most);
    if (!call_.json && kept) answer.out += "\n" + kept_told;
    if (batch.time_ran_out) {
      answer.err += batch.verdict == CutVerdict::undecided
                        ? limit_told()
                        : fmt::format(
                              "evenmat: The limit of {} s was reached with this plan in hand; with a "
                              "longer --limit it may get better.\n",
                              call_.limit);
    }
    return answer;
  }

  // The sentence that says why it could not be done, or nothing.
  [[nodiscard]] std::string write(const std::string& text) const {
    const std::string trouble = trouble_with_keeping();
    return trouble.empty() ? write_new_file(target(), text) : trouble;
  }

  [[nodiscard]] std::vector<std::size_t> no_spare_stated() const {
    std::vector<std::size_t> none;
    for (std::size_t i = 0; i < opened_.size(); ++i) {
      if (!states_at_top(opened_[i].text, "spare")) none.push_back(i);
    }
    return none;
  }

  const CutCall& call_;
  const Style& out_;
  const Style& err_;
  const Meanwhile& meanwhile_;
  std::chrono::steady_clock::time_point began_ = std::chrono::steady_clock::now();
  std::vector<OpenedCard> opened_;
  std::vector<OpenedLeftovers> leftovers_;
  std::vector<MistakeInFile> mistakes_;
  std::string told_;  // of them, for standard error
  std::vector<MorePaper> more_;
  std::vector<SizedCard> sized_;
  std::vector<BatchCard> cards_;
};

}  // namespace

Answer cut_command(const CutCall& call, const Style& out, const Style& err, const Meanwhile& meanwhile) {
  return Cutting(call, out, err, meanwhile).answer();
}

}  // namespace evenmat
