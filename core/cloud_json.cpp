#include <algorithm>
#include <cmath>

#include "core/cloud.h"
#include "core/json.h"

namespace core {
namespace {

/// The greatest first.
std::array<Unknown, kUnknowns> order_of(const VarianceShares& shares) {
  std::array<Unknown, kUnknowns> out{};
  for (std::size_t k = 0; k < kUnknowns; ++k) out[k] = static_cast<Unknown>(k);
  std::stable_sort(out.begin(), out.end(), [&](Unknown a, Unknown b) {
    return shares.of[static_cast<std::size_t>(a)].share >
           shares.of[static_cast<std::size_t>(b)].share;
  });
  return out;
}

void write_spread(Json& j, std::string_view key, const CloudSummary::Spread& s) {
  j.key(key).open_object().field("mean", s.mean).field("sd", s.sd);
  j.field("low", s.low).field("middle", s.middle).field("high", s.high).close_object();
}

void write_shares(Json& j, std::string_view key, const VarianceShares& shares) {
  if (std::isnan(shares.together.share)) {
    j.key(key).null();
    return;
  }
  j.key(key).open_object().field("flights", shares.used);
  j.key("rows").open_array();
  for (const Unknown unknown : order_of(shares)) {
    const VarianceShares::Share& s = shares.of[static_cast<std::size_t>(unknown)];
    j.open_object().field("unknown", name_of(unknown));
    j.field("share", s.share).field("give_or_take", s.give_or_take).close_object();
  }
  j.close_array();
  j.field("together", shares.together.share);
  j.field("together_give_or_take", shares.together.give_or_take).close_object();
}

}  // namespace

std::string cloud_json(const Cloud& cloud, double tolerance_nm) {
  Json j;
  j.open_object().text_or_null("why", cloud.why() == NoCloud::none ? "" : name_of(cloud.why()));
  const CloudSummary s = cloud.summary(tolerance_nm);
  j.field("drawn", s.drawn).field("flown", s.flown).field("tolerance_nm", tolerance_nm);
  j.field("inside_share", s.inside_share);
  j.key("spread").open_array();
  for (std::size_t k = 0; k < kUnknowns; ++k) {
    const auto unknown = static_cast<Unknown>(k);
    j.open_object().field("unknown", name_of(unknown));
    j.field("plus_minus", cloud.spread()[unknown]).close_object();
  }
  j.close_array();
  write_spread(j, "cross_nm", s.cross_nm);
  write_spread(j, "inbound_s", s.inbound_s);
  write_shares(j, "cross_shares", cloud.cross_shares());
  write_shares(j, "inbound_shares", cloud.inbound_shares());
  j.close_object();
  return j.take();
}

}  // namespace core
