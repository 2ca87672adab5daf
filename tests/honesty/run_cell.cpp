#include "honesty/run_cell.hpp"

#include <algorithm>
#include <atomic>
#include <exception>
#include <mutex>
#include <stdexcept>
#include <string_view>
#include <thread>

#include "honesty/nature.hpp"
#include "honesty/written_test.hpp"

namespace hailwright::honesty {

namespace {

constexpr int tests_in_block = 250;

/// Each cell and each loss has numbers of its own, whichever other cells are run (FNV-1a).
std::uint64_t seed_of(std::uint64_t seed, std::string_view name, std::uint64_t loss_index) {
  std::uint64_t hash = 14695981039346656037U ^ seed;
  for (const char c : name) {
    hash ^= static_cast<unsigned char>(c);
    hash *= 1099511628211U;
  }
  return (hash ^ loss_index) * 1099511628211U;
}

bool same_judgement(const Assessment& a, const Assessment& b) {
  const PowerResult& p = a.power.at(0);
  const PowerResult& q = b.power.at(0);
  return p.estimate.lambda == q.estimate.lambda && p.estimate.u_lambda == q.estimate.u_lambda &&
         p.estimate.expanded == q.estimate.expanded && p.answers == q.answers &&
         p.valid == q.valid && p.decides == q.decides &&
         a.verdicts.at(0).word == b.verdicts.at(0).word;
}

/// The tests of one cell at one true loss.
class Runner {
public:
  Runner(const Cell& cell, const RunPlan& plan, double loss, std::uint64_t seed)
      : cell_(cell), plan_(plan), loss_(loss), seed_(seed), layout_(lay_out(cell.design)),
        nature_(layout_, cell.truth, cell.mischief), written_(cell.design, layout_, cell.stated),
        blocks_(static_cast<std::size_t>((plan.tests + tests_in_block - 1) / tests_in_block)) {}

  Tally run() {
    std::vector<std::thread> threads;
    for (int i = 1; i < plan_.threads; ++i)
      threads.emplace_back([this] { work(); });
    work();
    for (std::thread& thread : threads)
      thread.join();
    if (failure_) std::rethrow_exception(failure_);
    // In their order, so that sums are rounded alike for any number of threads.
    Tally all;
    for (const Tally& block : blocks_)
      all.add(block);
    return all;
  }

private:
  void work() {
    try {
      Test test = written_.read(draw(0));
      for (std::size_t b = next_++; b < blocks_.size(); b = next_++) {
        const int first = static_cast<int>(b) * tests_in_block;
        for (int i = first; i < std::min(first + tests_in_block, plan_.tests); ++i)
          blocks_[b].add(judge(test, i), loss_);
      }
    } catch (...) {
      const std::lock_guard lock(failing_);
      failure_ = std::current_exception();
      next_ = blocks_.size();
    }
  }

  [[nodiscard]] std::vector<Typed> draw(int index) const {
    RandomStream random(seed_, static_cast<std::uint64_t>(index));
    return nature_.draw(random, loss_);
  }

  Assessment judge(Test& test, int index) const {
    const std::vector<Typed> readings = draw(index);
    put_readings(test, readings);
    Assessment assessment = assess(test, std::nullopt, Extent::verdicts);
    if (index < plan_.from_text && !same_judgement(assess(written_.read(readings)), assessment)) {
      throw std::runtime_error(cell_.name() + ": a test read from text is judged otherwise");
    }
    return assessment;
  }

  const Cell& cell_;
  const RunPlan& plan_;
  double loss_;
  std::uint64_t seed_;
  Layout layout_;
  Nature nature_;
  WrittenTest written_;
  std::vector<Tally> blocks_;
  std::atomic<std::size_t> next_{0};
  std::mutex failing_;
  std::exception_ptr failure_;
};

}  // namespace

CellResult run_cell(const Cell& cell, const RunPlan& plan) {
  constexpr double limit = 0.05;
  const auto at = [&](double loss, std::uint64_t index) {
    return Runner(cell, plan, loss, seed_of(plan.seed, cell.name(), index)).run();
  };
  return {at(0.0, 0), at(0.5 * limit, 1), at(limit, 2)};
}

}  // namespace hailwright::honesty
