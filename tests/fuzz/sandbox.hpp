#pragma once

#include <filesystem>
#include <functional>
#include <map>
#include <streambuf>
#include <string>

namespace hailwright::fuzzing {

/// A folder of its own with small files of each kind, in which the program is run, and nobody who
/// listens: standard output and the messages go nowhere, standard input is empty. A fuzzer that
/// crashes leaves the folder, below the system's one for temporary files.
class Sandbox {
public:
  Sandbox();
  Sandbox(const Sandbox&) = delete;
  Sandbox& operator=(const Sandbox&) = delete;
  Sandbox(Sandbox&&) = delete;
  Sandbox& operator=(Sandbox&&) = delete;
  ~Sandbox();

  /// Runs the program in the folder, gives what it gives, and removes what it wrote. That it left
  /// the files as they were is required.
  int run(const std::function<int()>& program);

private:
  struct Nowhere : std::streambuf {
    int overflow(int c) override { return c; }
  };

  void tidy() const;
  void write(const std::string& name, const std::string& text) const;

  std::filesystem::path folder_, before_;
  std::map<std::string, std::string> files_;
  Nowhere nowhere_;
  std::streambuf* messages_before_ = nullptr;
};

/// The one of this process.
Sandbox& sandbox();

}  // namespace hailwright::fuzzing
