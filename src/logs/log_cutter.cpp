#include "logs/log_cutter.hpp"

namespace hailwright::detail {

LogCutter::LogCutter(const LogQuestion& question) {
  switch (question.cut.kind) {
  case LogCut::Kind::whole:
    return;
  case LogCut::Kind::times:
    cutter_.emplace<TimeCutter>(question.cut.spans, question.rules, question.kept_rows);
    return;
  case LogCut::Kind::markers:
    cutter_.emplace<MarkerCutter>(question.rules, question.kept_rows);
    return;
  case LogCut::Kind::plateaus:
    cutter_.emplace<PlateauCutter>(question.cut.plateaus, question.rules, question.kept_rows);
    return;
  }
}

void LogCutter::take(const LogBlock& block) {
  if (auto* times = std::get_if<TimeCutter>(&cutter_)) times->take(block);
  if (auto* markers = std::get_if<MarkerCutter>(&cutter_)) markers->take(block);
  if (auto* plateaus = std::get_if<PlateauCutter>(&cutter_)) plateaus->take(block);
}

CutResult LogCutter::finish() {
  if (auto* times = std::get_if<TimeCutter>(&cutter_)) return times->finish();
  if (auto* markers = std::get_if<MarkerCutter>(&cutter_)) return markers->finish();
  if (auto* plateaus = std::get_if<PlateauCutter>(&cutter_)) return plateaus->finish();
  return {};
}

}  // namespace hailwright::detail
