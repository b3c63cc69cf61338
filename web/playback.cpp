#include "web/playback.h"

#include <cmath>

namespace web {

void Playback::range(double start_s, double end_s) {
  start_s_ = start_s;
  end_s_ = end_s < start_s ? start_s : end_s;
  seek(t_s_);
}

void Playback::seek(double t_s) {
  if (!std::isfinite(t_s)) return;
  t_s_ = std::fmin(std::fmax(t_s, start_s_), end_s_);
}

void Playback::play() {
  if (t_s_ >= end_s_) t_s_ = start_s_;
  playing_ = end_s_ > start_s_;
}

void Playback::set_speed(double multiplier) {
  if (!std::isfinite(multiplier)) return;
  speed_ = std::fmin(std::fmax(multiplier, kSlowest), kFastest);
}

double Playback::advance(double dt_s) {
  if (!playing_ || !(dt_s > 0.0)) return 0.0;
  const double before = t_s_;
  seek(t_s_ + std::fmin(dt_s, kMostStepS) * speed_);
  if (t_s_ >= end_s_) playing_ = false;
  return t_s_ - before;
}

}  // namespace web
