#pragma once

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

}  // namespace hailwright::cli
