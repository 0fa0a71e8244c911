// How long a whole `evenmat draw` process takes, sizing and planning with it, as ratios to an empty Z3
// process in the same run. Said beside each: how large the drawing is.
//
// usage: bench_draw_speed [RUNS]
#include <cstdlib>
#include <filesystem>

#include "tests/bench/cards.h"
#include "tests/bench/processes.h"

namespace {

// So many layers in a settled order, each on the one before, with a paper that is there.
std::string of_layers(int layers, int cards) {
  std::string text = fmt::format(
      "title = \"Layers\"\ncards = {}\n\n[base]\nfold = \"side\"\nfront = \"5 x 7\"\npaper = \"white\"\n\n",
      cards);
  for (int i = 0; i < layers; ++i) {
    const std::string on = i == 0 ? "front" : fmt::format("layer {}", i);
    text += bench::layer(fmt::format("layer {}", i + 1), i % 2 == 0 ? "mat" : "panel", on,
                         {fmt::format("border = \"{}\"", layers > 12 ? "1/16" : "1/16 to 1/4, about 1/8"),
                          fmt::format("paper = \"{}\"", i % 3 == 0   ? "white"
                                                        : i % 3 == 1 ? "grey"
                                                                     : "print")});
  }
  for (const char* name : {"white", "grey", "print"})
    text += fmt::format("[[paper]]\nname = \"{}\"\nsheet = \"8 1/2 x 11\"\nthickness = \"0.011\"\n\n", name);
  return text;
}

// So many small layers side by side on one face, tilted, each in a place of its own.
std::string of_tilted(int layers) {
  std::string text = "[base]\nfold = \"flat\"\nfront = \"12 x 12\"\n\n";
  for (int i = 0; i < layers; ++i) {
    const int row = i / 10;
    text += bench::layer(fmt::format("dot {}", i), "image", "front",
                         {"size = \"1/2 x 1/2\"", "tilt = 7", fmt::format("from-left = \"{}\"", 1 + i % 10),
                          fmt::format("from-top = \"{}\"", 1 + row)});
  }
  return text;
}

}  // namespace

int main(int count, char** arguments) {  // NOLINT(bugprone-exception-escape): as it should
  const int runs = count > 1 ? std::atoi(arguments[1]) : 15;
  const bench::Folder folder;
  const bench::Table table(bench::empty_z3(runs), runs);

  const auto tell = [&](const std::string& name, const std::string& card, const std::string& out,
                        const std::vector<std::string>& more = {}, int status = 0) {
    std::vector<std::string> words{EVENMAT_PROGRAM, "draw", card, "-o", folder.file(out), "--force"};
    words.insert(words.end(), more.begin(), more.end());
    bench::Cost cost = bench::quickest(words, runs);
    cost.status = cost.status == status ? 0 : 1;
    std::error_code none;
    const auto bytes = std::filesystem::file_size(folder.file(out), none);
    table.line(name, cost, fmt::format("  {} KiB", none ? 0 : bytes / 1024));
  };
  const std::string cases = EVENMAT_SOURCE "/cases/";
  const std::string twelve = folder.written("twelve", of_layers(12, 12));
  table.line("evenmat size, 12 layers", bench::quickest({EVENMAT_PROGRAM, "size", twelve}, runs));
  tell("12 layers, SVG", twelve, "a.svg");
  tell("12 layers, PDF", twelve, "a.pdf");
  tell("12 layers, PNG", twelve, "a.png");
  tell("12 cards of 12 layers, worksheet", twelve, "a.pdf", {"--worksheet"});
  tell("12 cards of 12 layers, plan", twelve, "a.pdf", {"--plan"});
  tell("12 layers, recipe", twelve, "a.pdf", {"--recipe"});
  tell("12 layers, templates", twelve, "a.pdf", {"--templates"});
  tell("26 layers, SVG", folder.written("many", of_layers(26, 1)), "a.svg");
  // A face is piled up once, not once for each of its layers.
  const std::string tilted = folder.written("tilted", of_tilted(90));
  table.line("evenmat size, 90 tilted layers", bench::quickest({EVENMAT_PROGRAM, "size", tilted}, runs));
  tell("90 tilted layers, templates", tilted, "a.pdf", {"--templates"});
  tell("lantern-thanks, SVG", cases + "lantern-thanks.toml", "a.svg");
  tell("lantern-thanks, worksheet", cases + "lantern-thanks.toml", "a.pdf", {"--worksheet"});
  tell("swift-tower, SVG", cases + "swift-tower.toml", "a.svg");
  tell("mat-too-wide-for-reveal, SVG", cases + "unbuildable/mat-too-wide-for-reveal.toml", "a.svg", {}, 1);
}
