#include "logs/log_cut_markers.hpp"

#include <utility>

namespace hailwright::detail {

void MarkerCutter::take(const LogBlock& block) {
  std::size_t begin = 0;
  for (const MarkerChange& change : block.markers) {
    if (change.text == text_) continue;
    take_rows(block, begin, change.row);
    begin = change.row;
    close();
    text_ = change.text;
    left_out_ = false;
  }
  take_rows(block, begin, block.rows());
}

void MarkerCutter::take_rows(const LogBlock& block, std::size_t begin, std::size_t end) {
  if (begin >= end || text_.empty() || left_out_) return;
  if (!open_ && out_.full()) {
    if (remarks_.too_many++ == 0) remarks_.first_too_many = place_of(block, begin);
    left_out_ = true;
    return;
  }
  if (!open_) open_.emplace(out_.open());
  open_->take(block, begin, end);
}

void MarkerCutter::close() {
  if (!open_) return;
  std::string name = new_name(text_);
  if (name != text_) remarks_.returns.push_back({text_, name, open_->place()});
  out_.add(open_->close(std::move(name)));
  open_.reset();
}

// "before 1", "before 1 (2)", ...; a name that some other marker has already is passed over.
std::string MarkerCutter::new_name(const std::string& text) {
  int& runs = runs_[text];
  std::string name;
  do {
    name = ++runs == 1 ? text : text + " (" + std::to_string(runs) + ")";
  } while (runs > 1 && runs_.contains(name));
  if (runs > 1) runs_.emplace(name, 1);
  return name;
}

CutResult MarkerCutter::finish() {
  close();
  return {out_.release(), std::move(remarks_)};
}

}  // namespace hailwright::detail
