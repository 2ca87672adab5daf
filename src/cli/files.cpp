#include "cli/files.hpp"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>

#include "cli/descriptor.hpp"
#include "hailwright/core/digest.hpp"

namespace hailwright::cli {

namespace {

Loaded failed(std::string problem, std::string hint = {}) {
  return {std::nullopt, std::move(problem), std::move(hint)};
}

}  // namespace

Loaded load_file(const std::string& path, std::size_t largest) {
  // Not waiting for a pipe's other end: what it is can be asked first.
  // NOLINTNEXTLINE(cppcoreguidelines-pro-type-vararg): there is no other call for it
  const Descriptor file(open(path.c_str(), O_RDONLY | O_NONBLOCK | O_NOCTTY | O_CLOEXEC));
  if (file.get() < 0) {
    OpenProblem problem = open_problem(errno);
    return failed(std::move(problem.words), std::move(problem.mend));
  }
  struct stat info {};
  if (fstat(file.get(), &info) != 0) return failed("cannot be examined: " + system_words(errno));
  if (S_ISDIR(info.st_mode)) return failed("is a folder", "name a file inside it");
  if (!S_ISREG(info.st_mode)) return failed("is not an ordinary file", "save it as a file first");
  const auto size = static_cast<std::size_t>(info.st_size);
  if (size > largest) {
    return failed("is too large: " + std::to_string(size) + " bytes, at most " +
                      std::to_string(largest) + " are read",
                  "a file written by hand is far smaller; is this the right one?");
  }
  std::string text(size, '\0');
  std::size_t filled = 0;
  while (filled < size) {
    const ssize_t n = read(file.get(), text.data() + filled, size - filled);
    if (n < 0 && errno == EINTR) continue;
    if (n < 0) return failed("cannot be read: " + system_words(errno));
    if (n == 0) break;
    filled += static_cast<std::size_t>(n);
  }
  text.resize(filled);
  return {std::move(text), {}, {}};
}

std::optional<std::string> sha256_of_file(const std::string& path) {
  // NOLINTNEXTLINE(cppcoreguidelines-pro-type-vararg): there is no other call for it
  const Descriptor file(open(path.c_str(), O_RDONLY | O_NONBLOCK | O_NOCTTY | O_CLOEXEC));
  struct stat info {};
  if (file.get() < 0 || fstat(file.get(), &info) != 0 || !S_ISREG(info.st_mode))
    return std::nullopt;
  Sha256 sum;
  std::string piece(std::size_t{256} << 10U, '\0');
  for (;;) {
    const ssize_t n = read(file.get(), piece.data(), piece.size());
    if (n < 0 && errno == EINTR) continue;
    if (n < 0) return std::nullopt;
    if (n == 0) return sum.hex();
    sum.add({piece.data(), static_cast<std::size_t>(n)});
  }
}

FileSet::FileSet(const std::vector<std::string>& paths) {
  for (const std::string& path : paths)
    add(path);
}

bool FileSet::add(const std::string& path) {
  struct stat info {};
  return stat(path.c_str(), &info) != 0 || files_.emplace(info.st_dev, info.st_ino).second;
}

bool FileSet::has(const std::string& path) const {
  struct stat info {};
  return stat(path.c_str(), &info) == 0 && files_.contains({info.st_dev, info.st_ino});
}

}  // namespace hailwright::cli
