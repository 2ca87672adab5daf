#include "cli/descriptor.hpp"

#include <unistd.h>

#include <utility>

namespace hailwright::cli {

Descriptor::~Descriptor() {
  if (fd_ >= 0) ::close(fd_);
}

bool Descriptor::close() {
  return ::close(std::exchange(fd_, -1)) == 0;
}

}  // namespace hailwright::cli
