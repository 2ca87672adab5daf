#include "cli/byte_source.hpp"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cstdlib>
#include <fstream>
#include <iterator>
#include <thread>

#include "cli/descriptor.hpp"
#include "support/catch.hpp"
#include "support/scratch_folder.hpp"

using namespace hailwright;
using namespace hailwright::cli;
using hailwright::testing::ScratchFolder;

namespace {

/// What came of reading a source to its end in pieces of this size.
struct ReadToEnd {
  std::string text;
  std::string problem;
};

ReadToEnd read_all(const LogBytes& bytes, std::size_t piece = 100'000) {
  ReadToEnd all;
  std::string buffer(piece, '\0');
  while (const std::size_t n = bytes.read(buffer.data(), buffer.size()))
    all.text.append(buffer, 0, n);
  all.problem = bytes.problem();
  return all;
}

ReadToEnd read_all(const std::string& path, std::size_t piece = 100'000) {
  return read_all(byte_source(path), piece);
}

/// Rows of a log that do not compress to nothing.
std::string rows(int count) {
  std::string text = "time,power\n";
  unsigned state = 1;
  for (int i = 0; i < count; ++i) {
    state = state * 1664525U + 1013904223U;
    text += std::to_string(i) + "," + std::to_string(state >> 8U) + "\n";
  }
  return text;
}

/// Compresses by the gzip program, which is not ours.
std::string gzipped(const ScratchFolder& scratch, const std::string& text,
                    const std::string& name) {
  const std::string plain = scratch.write(name + ".plain", text);
  const std::string command = "gzip -c '" + plain + "' > '" + (scratch / name) + "'";
  REQUIRE(std::system(command.c_str()) == 0);
  std::ifstream in(scratch / name, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), {}};
}

/// Gives standard input to the tests for as long as it lives.
class InputFrom {
public:
  explicit InputFrom(int fd) : before_(dup(STDIN_FILENO)) { dup2(fd, STDIN_FILENO); }
  InputFrom(const InputFrom&) = delete;
  InputFrom& operator=(const InputFrom&) = delete;
  InputFrom(InputFrom&&) = delete;
  InputFrom& operator=(InputFrom&&) = delete;
  ~InputFrom() { dup2(before_.get(), STDIN_FILENO); }

private:
  Descriptor before_;
};

/// A terminal that nobody types at.
int open_terminal() {
  const int master = posix_openpt(O_RDWR | O_NOCTTY);
  REQUIRE(master >= 0);
  REQUIRE(grantpt(master) == 0);
  REQUIRE(unlockpt(master) == 0);
  return master;
}

}  // namespace

TEST_CASE("byte_source: a file comes as it is whatever the size of the pieces") {
  const ScratchFolder scratch;
  const std::string text = rows(50'000);
  const std::string path = scratch.write("a.csv", text);
  for (const std::size_t piece : {std::size_t{1} << 20U, std::size_t{262'144}, std::size_t{777}}) {
    CAPTURE(piece);
    const ReadToEnd all = read_all(path, piece);
    CHECK(all.text == text);
    CHECK(all.problem.empty());
  }
  CHECK(read_all(scratch.write("empty", "")).text.empty());
  CHECK(read_all(scratch.write("one", "x"), 1).text == "x");
}

TEST_CASE("byte_source: a piece is filled as far as it can be") {
  const ScratchFolder scratch;
  const LogBytes bytes = byte_source(scratch.write("a", "0123456789abcdef"));
  std::string buffer(12, '\0');
  CHECK(bytes.read(buffer.data(), 12) == 12);
  CHECK(buffer == "0123456789ab");
  CHECK(bytes.read(buffer.data(), 12) == 4);
  CHECK(bytes.read(buffer.data(), 12) == 0);
  CHECK(bytes.read(buffer.data(), 12) == 0);
  CHECK(bytes.problem().empty());
}

TEST_CASE("byte_source: gzip is told by its beginning and decompressed") {
  const ScratchFolder scratch;
  const std::string text = rows(200'000);
  const std::string packed = gzipped(scratch, text, "looks-plain.csv");
  REQUIRE(packed.size() > 600'000);  // more than two pieces
  for (const std::size_t piece : {std::size_t{262'144}, std::size_t{1000}}) {
    const ReadToEnd all = read_all(scratch / "looks-plain.csv", piece);
    CHECK(all.text == text);
    CHECK(all.problem.empty());
  }
  CHECK(read_all(scratch.write("plain.gz", text)).text == text);
}

TEST_CASE("byte_source: members of a gzip file follow each other, and zeros fill it up") {
  const ScratchFolder scratch;
  const std::string one = gzipped(scratch, rows(3000), "one");
  const std::string two = gzipped(scratch, "the second\n", "two");
  const std::string nothing = gzipped(scratch, "", "nothing");
  const std::string path = scratch.write("all", one + nothing + two + std::string(10'000, '\0'));
  const ReadToEnd all = read_all(path);
  CHECK(all.text == rows(3000) + "the second\n");
  CHECK(all.problem.empty());
}

TEST_CASE("byte_source: gzip that is cut or damaged says so behind what can be read") {
  const ScratchFolder scratch;
  const std::string text = rows(100'000);
  const std::string packed = gzipped(scratch, text, "whole");
  for (const std::size_t size :
       {std::size_t{3}, std::size_t{18}, packed.size() / 2, packed.size() - 1}) {
    CAPTURE(size);
    const ReadToEnd cut = read_all(scratch.write("cut", packed.substr(0, size)));
    CHECK(cut.problem == "the compressed data ends too early");
    CHECK(text.starts_with(cut.text));
  }
  std::string damaged = packed;
  damaged[damaged.size() / 2] = static_cast<char>(damaged[damaged.size() / 2] ^ 0x55);
  CHECK(read_all(scratch.write("damaged", damaged)).problem == "the compressed data is damaged");
  std::string wrong_sum = packed;
  wrong_sum[packed.size() - 6] = static_cast<char>(wrong_sum[packed.size() - 6] ^ 1);
  CHECK(read_all(scratch.write("sum", wrong_sum)).problem == "the compressed data is damaged");
  CHECK(read_all(scratch.write("more", packed + "time,power\n")).problem ==
        "something else stands behind the compressed data");
  CHECK(read_all(scratch.write("zeros", packed + std::string(5, '\0') + "x")).problem ==
        "something else stands behind the compressed data");
}

TEST_CASE("byte_source: other packings are named with the way out") {
  const ScratchFolder scratch;
  using namespace std::string_literals;
  const auto problem = [&](const std::string& text) {
    const ReadToEnd all = read_all(scratch.write("packed", text));
    CHECK(all.text.empty());
    return all.problem;
  };
  CHECK_THAT(problem("PK\x03\x04..."s), Contains("spreadsheet: save its table as CSV"));
  CHECK_THAT(problem("\xFD"
                     "7zXZ\0..."s),
             Contains("xz -dc"));
  CHECK_THAT(problem("\x28\xB5\x2F\xFD..."s), Contains("zstd -dc"));
  CHECK_THAT(problem("BZh91AY&SY..."s), Contains("bzip2 -dc"));
}

TEST_CASE("byte_source: a pipe by name is read however it delivers") {
  const ScratchFolder scratch;
  const std::string path = scratch / "pipe";
  REQUIRE(mkfifo(path.c_str(), 0600) == 0);
  CHECK(look_at_source(path).problem.empty());
  CHECK_FALSE(look_at_source(path).size);
  const std::string text = rows(3000);
  std::thread writer([&] {
    std::ofstream out(path, std::ios::binary);
    out << text.substr(0, 1) << std::flush;
    std::this_thread::sleep_for(std::chrono::milliseconds(20));
    out << text.substr(1, 100) << std::flush;
    std::this_thread::sleep_for(std::chrono::milliseconds(20));
    out << text.substr(101);
  });
  const ReadToEnd all = read_all(path);
  writer.join();
  CHECK(all.text == text);
}

TEST_CASE("byte_source: standard input is read from where it stands") {
  const ScratchFolder scratch;
  const Descriptor file(open(scratch.write("a", "0123456789").c_str(), O_RDONLY));
  REQUIRE(lseek(file.get(), 4, SEEK_SET) == 4);
  const InputFrom input(file.get());
  CHECK(look_at_source("-").problem.empty());
  CHECK_FALSE(look_at_source("-").size);
  CHECK(read_all("-").text == "456789");
}

TEST_CASE("byte_source: nothing waits for a terminal") {
  const Descriptor master(open_terminal());
  const std::string name = ptsname(master.get());
  const Descriptor terminal(open(name.c_str(), O_RDWR | O_NOCTTY));
  const InputFrom input(terminal.get());
  CHECK_THAT(look_at_source("-").problem, Contains("is a terminal"));
  CHECK(look_at_source("-").hint == "name a file, or pipe one in");
  CHECK_THAT(look_at_source(name).problem, Contains("is a terminal"));
}

TEST_CASE("byte_source: what cannot be read is told with the mend") {
  const ScratchFolder scratch;
  CHECK(look_at_source(scratch / "none").problem == "is not there");
  CHECK(look_at_source(scratch.path()).problem == "is a folder");
  CHECK(look_at_source("").problem == "is not there");
  CHECK(look_at_source("/dev/zero").problem == "is a device and no file");
  CHECK(*look_at_source(scratch.write("a", "12345")).size == 5);
  CHECK(read_all(scratch / "none").problem == "the file is not there");
  CHECK_THAT(read_all(scratch.path()).problem, Contains("the file cannot be read"));
}

TEST_CASE("byte_source: a watch sees the bytes as they lie in the file") {
  const ScratchFolder scratch;
  const std::string packed = gzipped(scratch, rows(100'000), "packed");
  std::string seen;
  int ends = 0;
  const ByteWatch watch{[&](std::string_view piece) { seen += piece; },
                        [&] {
                          ++ends;
                          return std::string("it is odd");
                        }};
  const ReadToEnd all = read_all(byte_source(scratch / "packed", watch));
  CHECK(all.text == rows(100'000));
  CHECK(seen == packed);
  CHECK(ends == 1);
  CHECK(all.problem == "it is odd");
}

TEST_CASE("byte_source: a log that a record names is an ordinary file") {
  const ScratchFolder scratch;
  const std::string pipe = scratch / "pipe";
  REQUIRE(mkfifo(pipe.c_str(), 0600) == 0);
  CHECK(open_log_file(pipe).problem == "is not an ordinary file");
  CHECK(open_log_file("/dev/zero").problem == "is a device and no file");
  CHECK(open_log_file("-").problem == "is not there");
  CHECK(open_log_file(scratch / "none").hint == "check the name and the folder");
  const OpenedLog opened = open_log_file(scratch.write("a", "text"));
  REQUIRE(opened.bytes);
  CHECK(read_all(*opened.bytes).text == "text");
}
