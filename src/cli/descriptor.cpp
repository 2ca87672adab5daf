#include "cli/descriptor.hpp"

#include <unistd.h>

#include <cerrno>
#include <utility>

namespace hailwright::cli {

Descriptor::~Descriptor() {
  if (fd_ >= 0) ::close(fd_);
}

bool Descriptor::close() {
  return ::close(std::exchange(fd_, -1)) == 0;
}

OpenProblem open_problem(int error) {
  switch (error) {
  case ENOENT:
    return {"is not there", "check the name and the folder"};
  case ENOTDIR:
    return {"is not there: a part of its path is no folder", "check the name and the folder"};
  case EACCES:
    return {"may not be read", "give yourself permission to read it"};
  case ELOOP:
    return {"is a link that leads back to itself", "name the file that is meant"};
  case ENAMETOOLONG:
    return {"is not there: no name can be so long", "check the name and the folder"};
  case ENXIO:
    return {"is not an ordinary file", "save it as a file first"};
  default:
    return {"cannot be opened: " + system_words(error), {}};
  }
}

}  // namespace hailwright::cli
