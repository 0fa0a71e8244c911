#include "cli/files.h"

#include <fcntl.h>
#include <fmt/format.h>
#include <unistd.h>

#include <array>
#include <cerrno>
#include <cstdlib>
#include <cstring>
#include <filesystem>
#include <string_view>
#include <system_error>

#include "cli/printable.h"
#include "model/card.h"

namespace evenmat {
namespace {

// An open file, closed when it goes; standard input is left open.
class Open {
 public:
  explicit Open(const std::string& path)
      : number_(path == "-" ? STDIN_FILENO : ::open(path.c_str(), O_RDONLY | O_CLOEXEC)) {}
  Open(const Open&) = delete;
  Open& operator=(const Open&) = delete;
  Open(Open&&) = delete;
  Open& operator=(Open&&) = delete;
  ~Open() {
    if (number_ > STDIN_FILENO) ::close(number_);
  }
  [[nodiscard]] int number() const { return number_; }

 private:
  int number_;
};

std::string trouble_with(const std::string& path, int error) {
  const std::string name = path == "-" ? "standard input" : printable(path);
  switch (error) {
    case ENOENT:
    case ENOTDIR:
      return fmt::format("There is no file {}.", name);
    case EISDIR:
      return fmt::format("{} is a folder, not a card file.", name);
    case EACCES:
    case EPERM:
      return fmt::format("{} is there, but may not be read.", name);
    default:
      return fmt::format("{} cannot be read: {}.", name, std::strerror(error));  // NOLINT: one thread
  }
}

bool is_set(const char* name) {
  const char* value = std::getenv(name);  // NOLINT: one thread
  return value != nullptr && *value != '\0';
}

}  // namespace

FileText read_file(const std::string& path) {
  if (path.empty()) return {{}, "The name of the card file is empty."};
  const Open file(path);
  if (file.number() < 0) return {{}, trouble_with(path, errno)};

  FileText read;
  std::array<char, 1u << 16u> piece{};
  while (true) {
    const ssize_t got = ::read(file.number(), piece.data(), piece.size());
    if (got < 0 && errno == EINTR) continue;
    if (got < 0) return {{}, trouble_with(path, errno)};
    if (got == 0) return read;
    read.text.append(piece.data(), static_cast<std::size_t>(got));
    if (read.text.size() > most_file_bytes) {
      return {{},
              fmt::format("{} is larger than a card file can be ({} bytes at most).",
                          path == "-" ? "Standard input" : printable(path), most_file_bytes)};
    }
  }
}

bool same_file(const std::string& a, const std::string& b) {
  std::error_code ignored;
  return a == b ||
         std::filesystem::equivalent(a == "-" ? "/dev/stdin" : a, b == "-" ? "/dev/stdin" : b, ignored);
}

int write_whole(int stream, std::string_view text) {
  while (!text.empty()) {
    const ssize_t written = ::write(stream, text.data(), text.size());
    if (written >= 0) {
      text.remove_prefix(static_cast<std::size_t>(written));
    } else if (errno != EINTR) {
      return errno;
    }
  }
  return 0;
}

int deliver(const Answer& answer, int earlier) {
  const int status = static_cast<int>(answer.status);
  const int error = earlier != 0 ? earlier : write_whole(STDOUT_FILENO, answer.out);
  // If this is not heard either, the exit status is all that is left to tell.
  static_cast<void>(write_whole(STDERR_FILENO, answer.err));
  if (error == 0 || error == EPIPE) return status;
  static_cast<void>(write_whole(STDERR_FILENO, fmt::format("evenmat: The answer cannot be written: {}.\n",
                                                           std::strerror(error))));  // NOLINT: one thread
  return static_cast<int>(Status::bad_input);
}

Style style_for(int stream) {
  const char* terminal = std::getenv("TERM");  // NOLINT: one thread
  const bool dumb = terminal == nullptr || std::string_view(terminal) == "dumb";
  return {.colour = !dumb && !is_set("NO_COLOR") && ::isatty(stream) == 1};
}

}  // namespace evenmat
