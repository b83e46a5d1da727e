/// The cutting plan: which pieces are cut from which stick.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "job/cuts.hpp"
#include "takeoff/cuts.hpp"

namespace fallwright::takeoff {

/// A piece as it is cut from a stick.
struct StickPiece {
  std::string mark;
  double length_mm = 0;
  double ripped_mm = 0;  ///< how thick it is ripped; 0: as the stick is
  int lane = 0;          ///< of a board that is ripped: strips of one lane lie end to end, lanes side by side
  friend bool operator==(const StickPiece&, const StickPiece&) = default;
};

/// A stick with its pieces from left to right, longest first but those on hold last, between its trimmed ends. Between
/// two pieces, and before the offcut, the saw takes its cut.
struct Stick {
  std::string stock;
  double length_mm = 0;
  std::vector<StickPiece> pieces;
  double offcut_mm = 0;   ///< 0 of a board that is ripped: what is left is of many lengths
  bool to_order = false;  ///< its piece is longer than any stick on offer; the length is the next step of 2 ft (300 mm)
  friend bool operator==(const Stick&, const Stick&) = default;
};

/// All sticks of one stock, the longest first, those that are cut alike one after the other.
struct StockPlan {
  std::string stock;
  std::vector<Stick> sticks;
  int pieces = 0;
  double kerf_mm = 0, trim_mm = 0;  ///< a saw cut; what is cut off each end of a stick first
  bool preferred = false;           ///< of the preferred lengths alone: the proofs below are of them
  double bought_mm = 0;             ///< all sticks together
  double least_mm = 0;              ///< shown to be needed: no choice of sticks on offer holds all pieces in less
  double offcut_mm = 0;
  bool fewest = false;            ///< shown as well: no choice of the same total has fewer sticks
  std::optional<Hold> hold = {};  ///< of any piece of it; furring that waits is planned apart
  std::string sold_as = {};       ///< of boards that furring is ripped from: their stock; else empty
  bool of_strips = false;         ///< furring for which no board is known: nobody sells sticks so thin
  std::vector<double> sticks_mm = {}, preferred_mm = {};  ///< lengths on offer, as the job has them
  bool is_ripped() const { return !sold_as.empty(); }
  bool proven() const;  ///< what is bought is the least possible
};

/// The least total length bought, and among plans of that length the fewest sticks, for each stock by itself; stocks by
/// name. Pieces fit when their lengths and the saw cuts between them are no longer than the stick between its trimmed
/// ends: a piece as long as that needs no cut. Sheets are left out.
///
/// Exact for lengths and saw cuts in whole 1/64 in or 1/10 mm; others count as up to 1/320 mm longer. Where two tapes
/// are mixed, a piece counts as up to 1/50000 of the longest stick longer than it is, and `least_mm` is what pieces
/// that much shorter would need. Strips of furring take boards (`plan_boards`) where it is known from what. Equal cuts
/// make equal plans. Knots, splits and wrong cuts are not allowed for.
std::vector<StockPlan> plan_cuts(const std::vector<CutRow>& cuts, const job::Cuts& how, bool metric);

/// Of a stick for a piece that is longer than any on offer: the next step of 2 ft (300 mm).
double length_to_order(double piece_mm, double trim_mm, bool metric);

/// Sticks that are cut alike, counted.
struct StickGroup {
  Stick stick;
  int count = 0;
};
std::vector<StickGroup> alike(const std::vector<Stick>& sticks);

/// Sticks of one length, counted, whatever is cut from them; those to order apart.
std::vector<StickGroup> by_length(const std::vector<Stick>& sticks);
bool same_length(const Stick& a, const Stick& b);

/// "the least possible", or how much above the least it may be.
std::string proof_text(const StockPlan& plan, bool metric);

/// A length of many sticks: "38.0 ft", "11.40 m".
std::string total_text(double length_mm, bool metric);

/// A saw cut, finer than a tape shows it where need be: "1/8\"", "2.5 mm".
std::string kerf_text(double kerf_mm, bool metric);

/// A stick's length as it is sold: "8 ft", "2.4 m"; with inches or millimetres where it is no whole foot.
std::string stick_text(double length_mm, bool metric);

}  // namespace fallwright::takeoff
