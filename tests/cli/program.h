// Runs the built program as a user would, for the tests: words in, exit status and both streams out.
#pragma once

#include <filesystem>
#include <string>
#include <string_view>
#include <vector>

namespace evenmat::testing {

struct Run {
  int status = 0;  // 128 + signal if one ended it
  std::string out;
  std::string err;
};

struct Call {
  std::vector<std::string> words;
  std::string input = {};                     // what stands on standard input
  std::vector<std::string> environment = {};  // "NAME=value", nothing else is set
  std::filesystem::path out = {};             // where standard output goes instead of into Run::out
  std::filesystem::path err = {};             // the like
};

Run run(const Call& call);
Run run(const std::vector<std::string>& words);

// A folder of its own, gone with it.
class Folder {
 public:
  Folder();
  ~Folder();
  Folder(const Folder&) = delete;
  Folder& operator=(const Folder&) = delete;
  Folder(Folder&&) = delete;
  Folder& operator=(Folder&&) = delete;

  // Writes a file and gives its path.
  [[nodiscard]] std::string file(const std::string& name, std::string_view text) const;
  [[nodiscard]] const std::filesystem::path& path() const { return path_; }

 private:
  std::filesystem::path path_;
};

// A terminal that a program may write to.
class Terminal {
 public:
  Terminal();
  ~Terminal();
  Terminal(const Terminal&) = delete;
  Terminal& operator=(const Terminal&) = delete;
  Terminal(Terminal&&) = delete;
  Terminal& operator=(Terminal&&) = delete;

  [[nodiscard]] const std::filesystem::path& path() const { return path_; }

  // What was written to it since it was last asked. Line ends come as "\r\n".
  [[nodiscard]] std::string text() const;

 private:
  int ours_ = -1;
  int held_ = -1;  // so that what is written stays readable when the program has ended
  std::filesystem::path path_;
};

// The lines of `text` without their ends.
std::vector<std::string> lines(std::string_view text);

// A card whose answer is plain: two nested layers with exact borders on a us A2 front.
extern const std::string_view two_layers;
// A mat wider than its front: cannot be built.
extern const std::string_view too_wide;

}  // namespace evenmat::testing
