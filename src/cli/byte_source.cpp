#include "cli/byte_source.hpp"

#include <fcntl.h>
#include <poll.h>
#include <sys/stat.h>
#include <unistd.h>
#include <zlib.h>

#include <algorithm>
#include <array>
#include <cerrno>
#include <memory>
#include <utility>
#include <vector>

#include "cli/descriptor.hpp"

namespace hailwright::cli {

namespace {

constexpr std::size_t piece_size = std::size_t{256} << 10U;

SourceLook refused(std::string problem, std::string hint = {}) {
  return {std::move(problem), std::move(hint), std::nullopt};
}

SourceLook cannot_open(int error) {
  OpenProblem problem = open_problem(error);
  return refused(std::move(problem.words), std::move(problem.mend));
}

/// Gives a descriptor that is not one of the three standard ones, or -1 and errno. It never waits.
int open_source(const std::string& path) {
  constexpr int first_of_ours = STDERR_FILENO + 1;
  if (path == standard_input) {
    // NOLINTNEXTLINE(cppcoreguidelines-pro-type-vararg): there is no other call for it
    return fcntl(STDIN_FILENO, F_DUPFD_CLOEXEC, first_of_ours);
  }
  // NOLINTNEXTLINE(cppcoreguidelines-pro-type-vararg): there is no other call for it
  const int fd = open(path.c_str(), O_RDONLY | O_NONBLOCK | O_NOCTTY | O_CLOEXEC);
  if (fd < 0 || fd >= first_of_ours) return fd;
  // Where standard input is closed, a file must not become it.
  const Descriptor low(fd);
  // NOLINTNEXTLINE(cppcoreguidelines-pro-type-vararg): there is no other call for it
  return fcntl(fd, F_DUPFD_CLOEXEC, first_of_ours);
}

constexpr const char* one_or_the_other = "name a file, or pipe one in";

SourceLook look_at(const struct stat& info) {
  if (S_ISDIR(info.st_mode)) return refused("is a folder", "name a file inside it");
  if (S_ISBLK(info.st_mode)) return refused("is a disk and no file", "name a file on it");
  if (S_ISCHR(info.st_mode)) return refused("is a device and no file", one_or_the_other);
  if (S_ISSOCK(info.st_mode)) return refused("is a socket", "save it as a file first");
  if (S_ISREG(info.st_mode)) return {{}, {}, std::int64_t{info.st_size}};
  return {};
}

SourceLook look_at_input() {
  struct stat info {};
  if (fstat(STDIN_FILENO, &info) != 0) return refused("is closed", one_or_the_other);
  if (isatty(STDIN_FILENO) != 0)
    return refused("is a terminal, and is not waited for", one_or_the_other);
  SourceLook look = S_ISSOCK(info.st_mode) ? SourceLook{} : look_at(info);
  look.size.reset();  // it may stand anywhere in a file, and is read once
  return look;
}

/// A device can only be told from a terminal by opening it.
bool is_terminal(const std::string& path) {
  const Descriptor device(open_source(path));
  return device.get() >= 0 && isatty(device.get()) != 0;
}

}  // namespace

SourceLook look_at_source(const std::string& path) {
  if (path == standard_input) return look_at_input();
  struct stat info {};
  if (stat(path.c_str(), &info) != 0 || access(path.c_str(), R_OK) != 0) return cannot_open(errno);
  if (S_ISCHR(info.st_mode) && is_terminal(path))
    return refused("is a terminal, and is not waited for", one_or_the_other);
  return look_at(info);
}

namespace {

/// The bytes as they lie in the file.
class RawBytes {
public:
  RawBytes(std::string path, ByteWatch watch) : path_(std::move(path)), watch_(std::move(watch)) {}

  /// Fills the buffer as far as it can; less only at the end or when something is wrong.
  std::size_t read(char* into, std::size_t most) {
    std::size_t filled = 0;
    while (filled < most && open()) {
      const std::size_t n = read_some(into + filled, most - filled);
      if (n == 0) break;
      if (watch_.piece) watch_.piece({into + filled, n});
      filled += n;
    }
    return filled;
  }
  [[nodiscard]] const std::string& problem() const { return problem_; }

private:
  enum class State { unopened, open, ended };

  bool open() {
    if (state_ != State::unopened) return state_ == State::open;
    file_.emplace(open_source(path_));
    if (file_->get() < 0) {
      fail("the file " + cannot_open(errno).problem);
      return false;
    }
    posix_fadvise(file_->get(), 0, 0, POSIX_FADV_SEQUENTIAL);  // a pipe refuses, and that is well
    state_ = State::open;
    // A pipe by name has ended before it begins, until somebody opens its other end.
    wait();
    return true;
  }

  std::size_t read_some(char* into, std::size_t most) {
    for (;;) {
      const ssize_t n = ::read(file_->get(), into, most);
      if (n > 0) return static_cast<std::size_t>(n);
      if (n == 0) {
        end();
        return 0;
      }
      if (errno == EAGAIN || errno == EWOULDBLOCK) {
        wait();
      } else if (errno != EINTR) {
        fail("the file cannot be read: " + system_words(errno));
        return 0;
      }
    }
  }

  void wait() const {
    pollfd readable{file_->get(), POLLIN, 0};
    while (poll(&readable, 1, -1) < 0 && errno == EINTR) {
    }
  }

  void end() {
    close();
    if (watch_.end) problem_ = watch_.end();
  }
  void fail(std::string problem) {
    close();
    problem_ = std::move(problem);
  }
  void close() {
    file_.reset();
    state_ = State::ended;
  }

  std::string path_;
  ByteWatch watch_;
  std::optional<Descriptor> file_;
  State state_ = State::unopened;
  std::string problem_;
};

/// Decompresses the members of a gzip file.
class Inflation {
public:
  /// @param begin  what was read of the file already: less than a piece, with the first member's
  ///               first byte
  Inflation(RawBytes& raw, std::string_view begin) : raw_(raw), piece_(piece_size) {
    std::copy(begin.begin(), begin.end(), piece_.begin());
    offer(begin.size());
    constexpr int gzip_alone = 16 + MAX_WBITS;
    if (inflateInit2(&stream_, gzip_alone) != Z_OK) fail("there is no memory to decompress it");
  }
  Inflation(const Inflation&) = delete;
  Inflation& operator=(const Inflation&) = delete;
  Inflation(Inflation&&) = delete;
  Inflation& operator=(Inflation&&) = delete;
  ~Inflation() { inflateEnd(&stream_); }

  std::size_t read(char* into, std::size_t most) {
    constexpr std::size_t at_once = std::size_t{1} << 30U;  // zlib counts in unsigned int
    most = std::min(most, at_once);
    // NOLINTNEXTLINE(cppcoreguidelines-pro-type-reinterpret-cast): zlib's bytes are unsigned
    stream_.next_out = reinterpret_cast<Bytef*>(into);
    stream_.avail_out = static_cast<uInt>(most);
    while (stream_.avail_out > 0 && !over_)
      step();
    return most - stream_.avail_out;
  }
  [[nodiscard]] const std::string& problem() const { return problem_; }

private:
  enum class At { member, behind_one, padding };

  void step() {
    if (stream_.avail_in == 0 && !refill()) return;
    if (at_ == At::member) {
      inflate_some();
    } else {
      go_on_behind_member();
    }
  }

  bool refill() {
    const std::size_t n = raw_.read(piece_.data(), piece_.size());
    offer(n);
    if (n > 0) return true;
    over_ = true;
    if (!raw_.problem().empty()) {
      problem_ = raw_.problem();
    } else if (at_ == At::member) {
      problem_ = "the compressed data ends too early";
    }
    return false;
  }

  void offer(std::size_t size) {
    // NOLINTNEXTLINE(cppcoreguidelines-pro-type-reinterpret-cast): zlib's bytes are unsigned
    stream_.next_in = reinterpret_cast<Bytef*>(piece_.data());
    stream_.avail_in = static_cast<uInt>(size);
  }

  void inflate_some() {
    const int result = inflate(&stream_, Z_NO_FLUSH);
    if (result == Z_STREAM_END) {
      at_ = At::behind_one;
    } else if (result == Z_MEM_ERROR) {
      fail("there is no memory to decompress it");
    } else if (result != Z_OK && result != Z_BUF_ERROR) {
      fail("the compressed data is damaged");
    }
  }

  /// Another member, or zeros to the end, with which tapes were filled.
  void go_on_behind_member() {
    constexpr Bytef first_of_member = 0x1F;
    if (*stream_.next_in == 0) {
      at_ = At::padding;
      ++stream_.next_in;
      --stream_.avail_in;
    } else if (at_ == At::behind_one && *stream_.next_in == first_of_member) {
      inflateReset(&stream_);
      at_ = At::member;
    } else {
      fail("something else stands behind the compressed data");
    }
  }

  void fail(std::string problem) {
    problem_ = std::move(problem);
    over_ = true;
  }

  RawBytes& raw_;
  std::vector<char> piece_;
  z_stream stream_{};
  At at_ = At::member;
  bool over_ = false;
  std::string problem_;
};

/// What files begin with that hold no text to read.
struct Packing {
  std::string_view begins;
  std::string_view problem;
};
using namespace std::string_view_literals;
constexpr std::string_view gzip_begins = "\x1F\x8B"sv;
constexpr std::array packings{
    Packing{"PK\x03\x04"sv, "the file is a ZIP archive or a spreadsheet: save its table as CSV"},
    Packing{"\xFD"
            "7zXZ\0"sv,
            "the file is compressed with xz: pipe in what xz -dc gives"},
    Packing{"\x28\xB5\x2F\xFD"sv, "the file is compressed with zstd: pipe in what zstd -dc gives"},
    Packing{"BZh91AY&SY"sv, "the file is compressed with bzip2: pipe in what bzip2 -dc gives"},
};
constexpr std::size_t longest_beginning = 10;

/// A file's bytes, decompressed where they begin like it.
class ByteSource {
public:
  ByteSource(const std::string& path, ByteWatch watch) : raw_(path, std::move(watch)) {}
  ByteSource(const ByteSource&) = delete;
  ByteSource& operator=(const ByteSource&) = delete;
  ByteSource(ByteSource&&) = delete;
  ByteSource& operator=(ByteSource&&) = delete;
  ~ByteSource() = default;

  std::size_t read(char* into, std::size_t most) {
    if (!begun_) begin();
    if (!unreadable_.empty()) return 0;
    if (inflation_) return inflation_->read(into, most);
    const std::size_t kept = std::min(most, beginning_.size());
    std::copy_n(beginning_.begin(), kept, into);
    beginning_.erase(0, kept);
    return kept + raw_.read(into + kept, most - kept);
  }

  [[nodiscard]] const std::string& problem() const {
    if (!unreadable_.empty()) return unreadable_;
    return inflation_ ? inflation_->problem() : raw_.problem();
  }

private:
  void begin() {
    begun_ = true;
    beginning_.resize(longest_beginning);
    beginning_.resize(raw_.read(beginning_.data(), beginning_.size()));
    for (const Packing& packing : packings) {
      if (beginning_.starts_with(packing.begins)) unreadable_ = packing.problem;
    }
    if (beginning_.starts_with(gzip_begins)) inflation_.emplace(raw_, beginning_);
  }

  RawBytes raw_;
  bool begun_ = false;
  std::string beginning_;  ///< read to see how the file begins, and not given on yet
  std::optional<Inflation> inflation_;
  std::string unreadable_;
};

}  // namespace

LogBytes byte_source(const std::string& path, ByteWatch watch) {
  auto source = std::make_shared<ByteSource>(path, std::move(watch));
  return {[source](char* into, std::size_t most) { return source->read(into, most); },
          [source] { return source->problem(); }};
}

OpenedLog open_log_file(const std::string& path, ByteWatch watch) {
  // A file may be called "-" in a record.
  const std::string plain = path == standard_input ? "./-" : path;
  SourceLook look = look_at_source(plain);
  if (look.problem.empty() && !look.size) {
    look.problem = "is not an ordinary file";
    look.hint = "save it as a file first";
  }
  if (!look.problem.empty()) return {std::nullopt, std::move(look.problem), std::move(look.hint)};
  return {byte_source(plain, std::move(watch)), {}, {}};
}

}  // namespace hailwright::cli
