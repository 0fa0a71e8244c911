#include "cli/new_file.h"

#include <fcntl.h>
#include <fmt/format.h>
#include <unistd.h>

#include <cerrno>
#include <cstdio>
#include <cstring>
#include <filesystem>
#include <system_error>

#include "cli/files.h"
#include "cli/printable.h"

namespace evenmat {
namespace {

namespace fs = std::filesystem;

// Where the file would really stand, or why it cannot.
struct Place {
  fs::path path;
  bool taken = false;  // a file is there that may be written over
  std::string trouble;
};

std::string cannot(const NewFile& file, int error) {
  return fmt::format("{} cannot be written: {}.", printable(file.path),
                     std::strerror(error));  // NOLINT: one thread
}

std::string taken(const NewFile& file) {
  return fmt::format("{} is there already, and was left as it is; --force writes over it.",
                     printable(file.path));
}

fs::path folder_of(const fs::path& path) { return path.has_parent_path() ? path.parent_path() : "."; }

std::string trouble_with_folder(const NewFile& file, const fs::path& path) {
  const fs::path folder = folder_of(path);
  const std::string name = printable(folder.string());
  std::error_code error;
  const fs::file_status status = fs::status(folder, error);
  if (status.type() == fs::file_type::not_found) {
    return fmt::format("There is no folder {} to write in.", name);
  }
  if (error) return cannot(file, error.value());
  if (!fs::is_directory(status)) return fmt::format("{} is not a folder to write in.", name);
  if (::access(folder.c_str(), W_OK | X_OK) != 0) {
    return errno == EACCES ? fmt::format("The folder {} may not be written in.", name) : cannot(file, errno);
  }
  return {};
}

Place place_of(const NewFile& file) {
  if (file.path.empty()) return {{}, false, "The name of the file to write is empty."};
  if (file.path == "-") return {{}, false, "- is no name for a file to write. Write ./- if you mean it."};
  const std::string name = printable(file.path);
  std::error_code error;
  const fs::file_status link = fs::symlink_status(file.path, error);
  if (link.type() == fs::file_type::not_found) {
    return {file.path, false, trouble_with_folder(file, file.path)};
  }
  if (!fs::status_known(link)) return {{}, false, cannot(file, error.value())};

  const fs::path path = fs::canonical(file.path, error);
  if (error) return {{}, false, fmt::format("{} is a link that leads nowhere.", name)};
  const fs::file_status status = fs::status(path, error);
  if (fs::is_directory(status)) return {{}, false, fmt::format("{} is a folder, not a file to write.", name)};
  if (!fs::is_regular_file(status)) return {{}, false, fmt::format("{} is no plain file.", name)};
  // A file by whatever name: the same entry of the same disk.
  if (fs::equivalent(path, file.original == "-" ? "/dev/stdin" : file.original, error)) {
    return {{}, false, fmt::format("{} is the card itself, which is never written over.", name)};
  }
  if (!file.force) return {{}, false, taken(file)};
  if (::access(path.c_str(), W_OK) != 0) {
    return {{}, false, fmt::format("{} may not be written over.", name)};
  }
  return {path, true, trouble_with_folder(file, path)};
}

// A file beside the one to write, gone again unless it took that one's place.
class Draft {
 public:
  explicit Draft(const fs::path& beside) {
    for (int i = 0; i < 100 && number_ < 0; ++i) {
      path_ = folder_of(beside) / fmt::format(".evenmat-{}-{}", ::getpid(), i);
      number_ = ::open(path_.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0666);
      if (number_ < 0 && errno != EEXIST) break;
    }
    error_ = number_ < 0 ? errno : 0;
  }
  Draft(const Draft&) = delete;
  Draft& operator=(const Draft&) = delete;
  Draft(Draft&&) = delete;
  Draft& operator=(Draft&&) = delete;
  ~Draft() {
    if (number_ < 0) return;
    ::close(number_);
    if (!moved_) ::unlink(path_.c_str());
  }

  // 0, or the error that kept it from being written whole, or from standing at `path`.
  int fill(std::string_view text) {
    if (error_ == 0) error_ = write_whole(number_, text);
    // Some places keep no more than what is in memory, and say so.
    if (error_ == 0 && ::fsync(number_) != 0 && errno != EINVAL && errno != ENOTSUP) error_ = errno;
    return error_;
  }
  int move_over(const fs::path& path) {
    moved_ = ::rename(path_.c_str(), path.c_str()) == 0;
    return moved_ ? 0 : errno;
  }
  // Over nothing that may have come to be there meanwhile.
  int move_to_free(const fs::path& path) {
    if (::link(path_.c_str(), path.c_str()) == 0) return 0;
    const bool no_links_here = errno == EPERM || errno == ENOTSUP || errno == ENOSYS || errno == EMLINK;
    if (!no_links_here) return errno;
    std::error_code ignored;
    return fs::symlink_status(path, ignored).type() == fs::file_type::not_found ? move_over(path) : EEXIST;
  }

 private:
  fs::path path_;
  int number_ = -1;
  int error_ = 0;
  bool moved_ = false;
};

}  // namespace

std::string trouble_with(const NewFile& file) { return place_of(file).trouble; }

std::string write_new_file(const NewFile& file, std::string_view text) {
  const Place place = place_of(file);
  if (!place.trouble.empty()) return place.trouble;
  Draft draft(place.path);
  int error = draft.fill(text);
  if (error == 0) error = place.taken ? draft.move_over(place.path) : draft.move_to_free(place.path);
  if (error == EEXIST) return taken(file);
  return error == 0 ? "" : cannot(file, error);
}

}  // namespace evenmat
