#pragma once

#include <string>
#include <system_error>

namespace hailwright::cli {

/// A file descriptor that closes itself, unless `close` has told how that went.
class Descriptor {
public:
  explicit Descriptor(int fd) : fd_(fd) {}
  Descriptor(const Descriptor&) = delete;
  Descriptor& operator=(const Descriptor&) = delete;
  Descriptor(Descriptor&&) = delete;
  Descriptor& operator=(Descriptor&&) = delete;
  ~Descriptor();
  [[nodiscard]] int get() const { return fd_; }
  /// Some systems tell only here that the disk is full.
  bool close();

private:
  int fd_;
};

/// What the system calls an error number: "Permission denied".
inline std::string system_words(int error) {
  return std::generic_category().message(error);
}

/// Why a file could not be opened, to stand behind its name, and how to mend that.
struct OpenProblem {
  std::string words;
  std::string mend;
};
OpenProblem open_problem(int error);

}  // namespace hailwright::cli
