#include "logs/log_cut_stretch.hpp"

#include <utility>

namespace hailwright::detail {

LogPlace place_of(const LogBlock& block, std::size_t row) {
  return {block.file, block.first_line + block.line[row]};
}

void OpenStretch::take(const LogBlock& block, std::size_t begin, std::size_t end) {
  if (begin >= end) return;
  if (rows_ == 0) place_ = place_of(block, begin);
  rows_ += end - begin;
  meter_.take(block, begin, end);
}

CutStretch OpenStretch::close(std::string name) {
  CutStretch cut;
  cut.place = place_;
  cut.stretch = meter_.finish(cut.complete);
  cut.stretch.name = std::move(name);
  return cut;
}

void CutStretches::add(CutStretch cut) {
  std::vector<LogRow>& kept = cut.stretch.kept;
  if (kept.size() > left_to_keep_) {  // spans that overlap are measured at the same time
    kept.resize(left_to_keep_);
    cut.complete = false;
  }
  if (asked_to_keep_ && kept.empty()) cut.complete = false;  // nothing was left for this one
  left_to_keep_ -= kept.size();
  done_.push_back(std::move(cut));
}

}  // namespace hailwright::detail
