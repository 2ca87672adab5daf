#include "cli/folder_claim.hpp"

#include <fcntl.h>
#include <sys/file.h>
#include <unistd.h>

#include <cerrno>
#include <charconv>
#include <csignal>
#include <filesystem>
#include <string_view>
#include <system_error>
#include <utility>

#include "cli/output_files.hpp"

namespace hailwright::cli {

namespace {

namespace fs = std::filesystem;

/// The program that a temporary file belongs to; 0 where the name is none of ours.
pid_t maker_of(std::string_view name) {
  if (!name.starts_with(temporary_prefix) || !name.ends_with(temporary_suffix)) return 0;
  name.remove_prefix(temporary_prefix.size());
  pid_t maker = 0;
  const auto [stop, error] = std::from_chars(name.data(), name.data() + name.size(), maker);
  return error == std::errc() && *stop == '-' ? maker : 0;
}

/// A program of our own number is of another machine or container, where the claim tells that it
/// has ended: here it would be this one, which has written nothing yet.
bool has_ended(pid_t maker) {
  return maker == getpid() || (kill(maker, 0) != 0 && errno == ESRCH);
}

}  // namespace

FolderClaim::FolderClaim(std::string folder)
    : folder_(std::move(folder)),
      // NOLINTNEXTLINE(cppcoreguidelines-pro-type-vararg): there is no other call for it
      handle_(open(folder_.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC)) {
  if (handle_.get() < 0) return;
  if (flock(handle_.get(), LOCK_EX | LOCK_NB) == 0) {
    state_ = State::held;
  } else if (errno == EWOULDBLOCK) {
    state_ = State::taken;
  }
}

void FolderClaim::remove_leftovers(const std::string& inside) const {
  if (state_ != State::held) return;
  std::error_code none;
  for (const auto& entry : fs::directory_iterator(fs::path(folder_) / inside, none)) {
    const pid_t maker = maker_of(entry.path().filename().string());
    if (maker > 0 && entry.symlink_status(none).type() == fs::file_type::regular &&
        has_ended(maker)) {
      unlink(entry.path().c_str());
    }
  }
}

}  // namespace hailwright::cli
