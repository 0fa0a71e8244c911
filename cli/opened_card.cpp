#include "cli/opened_card.h"

#include <utility>
#include <vector>

#include "cli/files.h"
#include "cli/json_answer.h"
#include "model/read_card.h"
#include "solver/size_card.h"

namespace evenmat {

OpenedCard open_card(const std::string& file, bool json, const Style& err) {
  FileText read = read_file(file);
  if (!read.trouble.empty()) {
    return {file, {}, {}, refused_call(read.trouble, json), {{{}, read.trouble}}};
  }
  OpenedCard opened{file == "-" ? "standard input" : file, std::move(read.text), {}, {}};
  const auto refuse = [&](const std::vector<Remark>& mistakes, std::string told) {
    opened.refused = {Status::bad_input, json ? json_mistakes(mistakes) : "", std::move(told)};
    opened.mistakes = mistakes;
  };
  CardReading reading = read_card(opened.text);
  if (!reading.card) {
    refuse(reading.mistakes, excerpts(opened.source(), reading.mistakes, err));
  } else if (const auto remark = refusal(*reading.card)) {
    refuse({*remark}, excerpt(opened.source(), *remark, err));
  } else {
    opened.card = std::move(reading.card);
  }
  return opened;
}

Answer refused_call(const std::string& says, bool json) {
  return {Status::bad_input, json ? json_mistakes({{.spot = {}, .says = says}}) : "",
          "evenmat: " + says + "\n"};
}

}  // namespace evenmat
