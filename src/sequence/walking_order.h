#pragma once
// The order in which a person walks past a machine's points, so that the way is short.
//
// A machine is walked around, not through. Its outline is the edge of its plan, a square of side 1; a point is worked
// on from the nearest place of the outline (of equally near ones: front, right, back, left). The way between two points
// is the shorter one along the outline, at most 2. Reaching in from the outline is the same in every order and is
// counted once to the point and once back. Lengths are in sides of the plan.
//
// The walk begins at the operator's place: the lowest numbered point of the assembly "control", where there is one,
// else the front right corner. It does not return.
//
// On a ring the shortest walk leaves out one gap between neighbouring points and goes to both sides of it, the shorter
// side first; trying every gap is exact for any number of points.

#include <vector>

#include "src/catalogue/shop.h"

namespace hw::sequence {

// Where on the outline one stands for a point, and where the operator does: 0 to below 4 sides.
double place_of(const catalogue::Point& point);
double operators_place(const std::vector<catalogue::Point>& points);

// The numbers of all points, in the order of the shortest walk; of equally short ones always the same. Point numbers
// are unique.
std::vector<int> walking_order(const std::vector<catalogue::Point>& points);

// The shop's own order, as far as its points are still there; points that it does not name are put in where they make
// the walk longer by least, the lowest number first.
std::vector<int> walking_order(const std::vector<catalogue::Point>& points, const std::vector<int>& made_by_hand);

// The length of the walk in that order from the operator's place, with reaching in; every number is one of the points.
double walk_length(const std::vector<catalogue::Point>& points, const std::vector<int>& order);

}  // namespace hw::sequence
