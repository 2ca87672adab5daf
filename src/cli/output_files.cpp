#include "cli/output_files.hpp"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <cstdio>
#include <filesystem>
#include <functional>
#include <system_error>
#include <utility>

#include "cli/descriptor.hpp"
#include "cli/files.hpp"
#include "cli/size_limit.hpp"
#include "core/utf8.hpp"
#include "hailwright/core/digest.hpp"

namespace hailwright::cli {

namespace {

using Fault = std::optional<WriteFault>;

Fault system_fault(const std::string& path, int error) {
  const std::string words = std::generic_category().message(error);
  switch (error) {
  case ENOENT:
    return WriteFault{path, "cannot be made: the folder above it is not there",
                      "make that folder first, or correct its name"};
  case ENOTDIR:
    return WriteFault{path, "cannot be made: a part of the path before it is no folder",
                      "correct the path"};
  case EACCES:
  case EPERM:
    return WriteFault{path, "may not be written: " + words,
                      "choose a folder of your own, or give yourself permission to write there"};
  case EROFS:
    return WriteFault{path, "lies where nothing can be written: " + words, "choose another folder"};
  case ENOSPC:
  case EDQUOT:
    return WriteFault{path, "could not be written: " + words,
                      "make room on the disk, or choose a folder on another one"};
  case EFBIG:
    return WriteFault{path, "could not be written: " + words,
                      "choose a folder where larger files are allowed"};
  case ENAMETOOLONG:
    return WriteFault{path, "cannot be made: " + words, "choose a shorter name"};
  default:
    return WriteFault{path, "could not be written: " + words, "choose another folder"};
  }
}

Fault there_already(const std::string& path) {
  return WriteFault{path, "is there already, and stays as it is",
                    "choose another folder or name, or move it away first"};
}

constexpr const char* followed_never = "is a symbolic link, which is neither followed nor replaced";

bool is_link(const std::string& path) {
  struct stat info {};
  return lstat(path.c_str(), &info) == 0 && S_ISLNK(info.st_mode);
}

/// What stands at the path in the way of a file of that name.
Fault in_the_way(const std::string& path, Existing existing) {
  struct stat info {};
  if (path.empty() || path.back() == '/') {
    return WriteFault{path, "names no file", "write a name after the folder"};
  }
  if (lstat(path.c_str(), &info) != 0) return std::nullopt;
  if (S_ISDIR(info.st_mode)) {
    return WriteFault{path, "is a folder", "choose another name, or name a file inside it"};
  }
  if (existing == Existing::keep) return there_already(path);
  if (S_ISLNK(info.st_mode)) {
    return WriteFault{path, followed_never, "name the file itself that it leads to"};
  }
  if (!S_ISREG(info.st_mode)) {
    return WriteFault{path, "is no ordinary file", "choose another name"};
  }
  return std::nullopt;
}

std::string folder_of(const std::string& path) {
  const std::string folder = std::filesystem::path(path).parent_path().string();
  return folder.empty() ? "." : folder;
}

/// So that the new name outlives a power cut. Where folders cannot be synchronised, nothing is lost
/// but that.
void sync_folder(const std::string& folder) {
  // NOLINTNEXTLINE(cppcoreguidelines-pro-type-vararg): there is no other call for it
  const Descriptor handle(open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC));
  if (handle.get() >= 0) fsync(handle.get());
}

bool write_all(int fd, std::string_view bytes) {
  while (!bytes.empty()) {
    const ssize_t n = write(fd, bytes.data(), bytes.size());
    if (n < 0 && errno == EINTR) continue;
    if (n < 0) return false;
    bytes.remove_prefix(static_cast<std::size_t>(n));
  }
  return true;
}

/// Copies a file piece by piece, and looks whether it is still what was read.
Fault copy_all(const LargeFile& from, int to, const std::string& to_path) {
  // NOLINTNEXTLINE(cppcoreguidelines-pro-type-vararg): there is no other call for it
  const Descriptor source(open(from.path.c_str(), O_RDONLY | O_NONBLOCK | O_CLOEXEC));
  if (source.get() < 0) {
    return WriteFault{from.path, "cannot be copied: " + std::generic_category().message(errno), ""};
  }
  Sha256 sum;
  std::string piece(std::size_t{256} << 10U, '\0');
  for (;;) {
    const ssize_t n = read(source.get(), piece.data(), piece.size());
    if (n < 0 && errno == EINTR) continue;
    if (n < 0)
      return WriteFault{from.path, "cannot be read: " + std::generic_category().message(errno), ""};
    if (n == 0) break;
    const std::string_view got(piece.data(), static_cast<std::size_t>(n));
    sum.add(got);
    if (!write_all(to, got)) return system_fault(to_path, errno);
  }
  if (sum.hex() == from.sha256) return std::nullopt;
  return WriteFault{from.path, "was changed by another program since it was read",
                    "write again when nothing is added to it any more, or from a copy"};
}

/// Also where the file system has no such thing as synchronising.
bool synced(int fd) {
  return fsync(fd) == 0 || errno == EINVAL || errno == ENOTSUP;
}

/// A file whose bytes are on the disk and that does not have its name yet.
class Unnamed {
public:
  explicit Unnamed(std::string path) : path_(std::move(path)) {}
  Unnamed(const Unnamed&) = delete;
  Unnamed& operator=(const Unnamed&) = delete;
  Unnamed(Unnamed&& other) noexcept
      : path_(std::move(other.path_)), temporary_(std::exchange(other.temporary_, {})),
        device_(other.device_), inode_(other.inode_) {}
  Unnamed& operator=(Unnamed&&) = delete;
  ~Unnamed() { remove_temporary(); }

  Fault write(std::string_view bytes) {
    return fill(
        [&](int fd) { return write_all(fd, bytes) ? std::nullopt : system_fault(path_, errno); });
  }

  Fault copy(const LargeFile& from) {
    return fill([&](int fd) { return copy_all(from, fd, path_); });
  }

  Fault give_name(Existing existing) {
    const bool named = existing == Existing::keep
                           ? give_free_name()
                           : std::rename(temporary_.c_str(), path_.c_str()) == 0;
    if (!named) {
      const int error = errno;
      if (auto fault = in_the_way(path_, existing)) return fault;
      return system_fault(path_, error);
    }
    temporary_.clear();
    sync_folder(folder_of(path_));
    return std::nullopt;
  }

  /// Removes the file under its own name, if it is still the one that was written.
  void take_back() const {
    struct stat info {};
    if (lstat(path_.c_str(), &info) != 0) return;
    if (info.st_dev == device_ && info.st_ino == inode_) unlink(path_.c_str());
  }

private:
  Fault fill(const std::function<Fault(int fd)>& with) {
    const SizeLimitIsAnError guard;
    Descriptor file(create());
    if (file.get() < 0) return system_fault(path_, errno);
    if (auto fault = with(file.get())) return fault;
    struct stat info {};
    if (!synced(file.get()) || fstat(file.get(), &info) != 0 || !file.close())
      return system_fault(path_, errno);
    device_ = info.st_dev;
    inode_ = info.st_ino;
    return std::nullopt;
  }

  int create() {
    // So many names are never all taken; others may write into the folder at the same time.
    constexpr int most_names = 1000;
    for (int i = 0; i < most_names; ++i) {
      temporary_ = folder_of(path_) + "/" + std::string(temporary_prefix) +
                   std::to_string(getpid()) + "-" + std::to_string(i) +
                   std::string(temporary_suffix);
      constexpr mode_t by_umask = 0666;
      // NOLINTNEXTLINE(cppcoreguidelines-pro-type-vararg): there is no other call for it
      const int fd = open(temporary_.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, by_umask);
      if (fd >= 0) return fd;
      if (errno != EEXIST) break;
    }
    temporary_.clear();
    return -1;
  }

  /// Fails with EEXIST when the name is taken, however late. A hard link is what POSIX offers for
  /// it; where a file system has none (FAT), Linux can rename without replacing.
  bool give_free_name() {
    if (link(temporary_.c_str(), path_.c_str()) == 0) {
      unlink(temporary_.c_str());
      return true;
    }
#ifdef RENAME_NOREPLACE
    if (errno == EEXIST) return false;
    return renameat2(AT_FDCWD, temporary_.c_str(), AT_FDCWD, path_.c_str(), RENAME_NOREPLACE) == 0;
#else
    return false;
#endif
  }

  void remove_temporary() {
    if (!temporary_.empty()) unlink(temporary_.c_str());
    temporary_.clear();
  }

  std::string path_;
  std::string temporary_;
  dev_t device_ = 0;
  ino_t inode_ = 0;
};

constexpr const char* link_mend = "name another folder, or move the link away first";

/// Folders made on the way; those still empty go again unless they are kept.
class Folders {
public:
  Folders() = default;
  Folders(const Folders&) = delete;
  Folders& operator=(const Folders&) = delete;
  Folders(Folders&&) = delete;
  Folders& operator=(Folders&&) = delete;
  ~Folders() {
    for (const std::string& folder : made_)
      rmdir(folder.c_str());
  }
  void keep() { made_.clear(); }

  Fault make(const std::string& folder) {
    constexpr mode_t by_umask = 0777;
    if (mkdir(folder.c_str(), by_umask) == 0) {
      made_.insert(made_.begin(), folder);
      return std::nullopt;
    }
    const int error = errno;
    struct stat info {};
    if (error != EEXIST) return system_fault(folder, error);
    if (stat(folder.c_str(), &info) == 0 && S_ISDIR(info.st_mode)) return std::nullopt;
    return WriteFault{folder, "is no folder", "choose another name for the folder"};
  }

  /// Those that a name inside a folder goes through; none of them a way to elsewhere.
  Fault make_for(const std::string& folder, const std::string& name) {
    std::filesystem::path path(folder);
    for (const auto& part : std::filesystem::path(name).parent_path()) {
      path /= part;
      if (is_link(path.string())) return WriteFault{path.string(), followed_never, link_mend};
      if (auto fault = make(path.string())) return fault;
    }
    return std::nullopt;
  }

private:
  std::vector<std::string> made_;  ///< the inner before those that hold them
};

/// Folders inside that are empty then go, too. What cannot be removed stays.
void remove_files(const std::filesystem::path& folder, const std::vector<std::string>& names) {
  for (const std::string& name : names) {
    unlink((folder / name).c_str());
    for (auto above = std::filesystem::path(name).parent_path();
         !above.empty() && rmdir((folder / above).c_str()) == 0;) {
      above = above.parent_path();
    }
  }
}

}  // namespace

std::optional<WriteFault> write_whole(const std::string& path, std::string_view bytes,
                                      Existing existing) {
  if (auto fault = in_the_way(path, existing)) return fault;
  Unnamed file(path);
  if (auto fault = file.write(bytes)) return fault;
  return file.give_name(existing);
}

std::vector<WriteFault> write_files(const std::string& folder, const std::vector<OutputFile>& files,
                                    Existing existing, const std::vector<std::string>& gone) {
  if (folder.empty()) return {{folder, "the folder has no name", "write . for the one you are in"}};
  std::vector<WriteFault> faults;
  std::vector<std::string> paths;
  for (const OutputFile& file : files) {
    paths.push_back((std::filesystem::path(folder) / file.name).string());
    if (auto fault = in_the_way(paths.back(), existing)) faults.push_back(std::move(*fault));
  }
  if (!faults.empty()) return faults;

  Folders folders;
  if (auto fault = folders.make(folder)) return {*fault};
  std::vector<Unnamed> unnamed;
  unnamed.reserve(files.size());
  for (std::size_t i = 0; i < files.size(); ++i) {
    if (auto fault = folders.make_for(folder, files[i].name)) return {*fault};
    Unnamed& file = unnamed.emplace_back(paths[i]);
    if (auto fault = files[i].copied ? file.copy(*files[i].copied) : file.write(files[i].bytes))
      return {*fault};
  }
  for (std::size_t i = 0; i < unnamed.size(); ++i) {
    if (i + 1 == unnamed.size()) remove_files(folder, gone);
    auto fault = unnamed[i].give_name(existing);
    if (!fault) continue;
    for (std::size_t k = 0; k < i && existing == Existing::keep; ++k)
      unnamed[k].take_back();
    return {*fault};
  }
  folders.keep();
  return {};
}

std::vector<WriteFault> inputs_in_the_way(const std::string& folder,
                                          const std::vector<OutputFile>& files,
                                          const std::vector<std::string>& read) {
  const FileSet inputs(read);
  std::vector<WriteFault> faults;
  for (const OutputFile& file : files) {
    const std::string path = (std::filesystem::path(folder) / file.name).string();
    if (!inputs.has(path) || sha256_of_file(path) == sha256_of(file)) continue;
    faults.push_back(
        {path, "is a file that this is made from, and stays as it is", "name another folder"});
  }
  return faults;
}

std::string sha256_of(const OutputFile& file) {
  return file.copied ? file.copied->sha256 : sha256_hex(file.bytes);
}

std::string text_of(const std::vector<WriteFault>& faults) {
  std::string text;
  for (std::size_t i = 0; i < faults.size(); ++i) {
    const WriteFault& fault = faults[i];
    text += "hailwright: " + detail::without_steering(fault.path) +
            (fault.path.empty() ? "" : " ") + fault.problem + "\n";
    const bool said_again = i + 1 < faults.size() && faults[i + 1].hint == fault.hint;
    if (!fault.hint.empty() && !said_again) text += "  help: " + fault.hint + "\n";
  }
  return text;
}

}  // namespace hailwright::cli
