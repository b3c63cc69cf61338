// core/clearance_reader.h - finds the pieces of a clearance among its words.
//
// One pass, left to right: each piece that begins at a word is tried in turn; what is none
// of them is part of a name that is being said, or is left unread. Draws no conclusions.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "core/clearance_parts.h"
#include "core/spoken.h"

namespace core {

class ClearanceReader {
 public:
  ClearanceReader(const std::vector<Token>& tokens, ReadClearance& out)
      : t_(tokens), r_(out), h_(out.heard), used_(tokens.size(), '\0') {}

  void run();

 private:
  using Text = std::string_view;
  /// Whose name the next unknown words are.
  enum class Naming {
    none,
    fix,             ///< HOLD WEST OF ...
    limit,           ///< CLEARED TO ...
    station_before,  ///< ON THE ... 265 RADIAL
    station_after,   ///< 265 RADIAL OF ...
  };
  static constexpr std::size_t kNowhere = ~std::size_t{0};
  /// Seconds or NM.
  struct Length {
    Leg::Kind kind;
    double value;
  };
  using Words = std::vector<std::size_t>;

  // Each of these takes its piece where one begins at i_, and says whether it did.
  bool hold();
  /// "West of ABC" without HOLD before it. A distance in front makes it a place: "5 miles
  /// west of ABC".
  bool bare_direction();
  bool limit();
  bool published();
  bool efc();
  bool now();
  bool speed();
  bool turns();
  /// V12, VICTOR 12, LOCALIZER, where no direction is said with it.
  bool route();
  bool figure();
  /// RADIAL 265, R-265, INBOUND COURSE 085: the kind before the number.
  bool worded_line();
  /// LEGS 5 MILES, OUTBOUND TIME 1 MINUTE.
  bool worded_leg();
  bool aid();
  /// The figures of a name, as in D12.
  bool glued_to_name();

  [[nodiscard]] bool is(std::size_t j, Text list) const;
  [[nodiscard]] std::size_t skip(std::size_t j, Text list) const;
  [[nodiscard]] bool pause_at(std::size_t j) const;
  /// The tokens up to `j` are understood.
  bool take(std::size_t j);
  Words* words();
  void enter(Naming next);
  [[nodiscard]] std::string joined(const Words& words) const;
  std::string named(const Words& words);
  void name_station();
  /// Adds the token at i_ to the name that is being said.
  bool to_name();
  std::optional<int> direction_at(std::size_t& j) const;
  void set_direction(int e);
  /// A clock time at `j`: 1845, 18:45, one eight four five, eighteen forty-five. Moves `j`.
  std::optional<int> clock_at(std::size_t& j, std::string& said) const;
  void set_turns(Side side);
  [[nodiscard]] std::optional<Reference> line_kind(std::size_t j) const;
  /// INBOUND or OUTBOUND at `j`.
  [[nodiscard]] Sense sense_at(std::size_t j) const;
  /// Words behind the number and its kind: TO, FROM, OF a station; then the end.
  void line(Reference kind, Sense sense, const Figure& f, std::size_t j);
  void name_station_before();
  void set_line(Reference kind, Sense sense, const Figure& f, bool on);
  void put_line(Reference kind, Sense sense, int deg, bool on);
  void set_leg(Leg::Kind kind, double value, const std::string& said);
  /// Of the figure `f`, where its unit stands at `j`. Moves `j` behind it.
  [[nodiscard]] std::optional<Length> length(const Figure& f, std::size_t& j) const;
  bool dme_fix(const Figure& f, std::size_t j);
  bool line_after(const Figure& f);
  /// OUTBOUND TO 6 DME, TURN INBOUND AT 10 DME: the figure at i_ is no place of the fix.
  [[nodiscard]] bool where_leg_ends() const;
  bool measure(const Figure& f);
  void other();
  void finish();

  const std::vector<Token>& t_;
  ReadClearance& r_;
  HeardClearance& h_;
  std::vector<char> used_;
  std::size_t i_ = 0;
  std::size_t stray_end_ = kNowhere;  ///< end of the last number that meant nothing
  Naming naming_ = Naming::none;
  bool name_before_line_ = false;
  bool line_on_ = false;  ///< the line followed ON: it is the one to hold on
  Words fix_, limit_, station_;
};

}  // namespace core
