// The words of every closed choice of a case, in the order of the enumerations of case.hpp and mesh/shoeing.hpp.
// Synonyms (lower case, see plain_words) are the unambiguous British, American and veterinary words for the same thing.
#pragma once

#include "scenarios/words.hpp"

namespace hoofload::scenarios::words {

using namespace std::string_view_literals;

inline constexpr std::array kLimb = {"right fore"sv, "left fore"sv};
inline constexpr std::array kLimbToo = {Synonym{"rf", 0}, Synonym{"off fore", 0}, Synonym{"lf", 1},
                                        Synonym{"near fore", 1}};

inline constexpr std::array kShoeType = {"bare"sv,    "open"sv,      "straight bar"sv,
                                         "egg bar"sv, "heart bar"sv, "full plate"sv};
inline constexpr std::array kShoeTypeToo = {Synonym{"barefoot", 0}, Synonym{"none", 0},       Synonym{"plain", 1},
                                            Synonym{"bar", 2},      Synonym{"frog plate", 4}, Synonym{"plate", 5}};

inline constexpr std::array kToe = {"flat"sv, "rolled"sv, "rocker"sv, "square"sv};
inline constexpr std::array kToeToo = {Synonym{"plain", 0}, Synonym{"rolled toe", 1}, Synonym{"rocker toe", 2},
                                       Synonym{"square toe", 3}};

inline constexpr std::array kAttachment = {"nailed"sv, "glued"sv, "taped"sv};
inline constexpr std::array kAttachmentToo = {Synonym{"nail", 0}, Synonym{"glue", 1}, Synonym{"tape", 2}};

inline constexpr std::array kPad = {"none"sv, "full"sv, "rim"sv};
inline constexpr std::array kPadToo = {Synonym{"full pad", 1}, Synonym{"rim pad", 2}};

inline constexpr std::array kRegion = {"none"sv, "full sole"sv, "dorsal half"sv, "palmar two thirds"sv, "frog rear"sv};
inline constexpr std::array kRegionToo = {Synonym{"full", 1}, Synonym{"palmar 2/3", 3}, Synonym{"rear of the frog", 4},
                                          Synonym{"frog sulci", 4}};

inline constexpr std::array kOrder = {"before nailing"sv, "after nailing"sv};
inline constexpr std::array kOrderToo = {Synonym{"before", 0}, Synonym{"after", 1}};

inline constexpr std::array kBond = {"bonded"sv, "frictional"sv, "free"sv};

inline constexpr std::array kGround = {"rigid"sv, "elastic"sv};
inline constexpr std::array kGroundToo = {Synonym{"hard", 0}, Synonym{"elastic bed", 1}, Synonym{"soft", 1}};

inline constexpr std::array kGait = {"walk"sv, "trot"sv};

inline constexpr std::array kPosture = {"held"sv, "passive"sv};

inline constexpr std::array kPhase = {"swing"sv, "standing"sv, "midstance"sv, "breakover"sv, "stance"sv, "press"sv};
inline constexpr std::array kPhaseToo = {Synonym{"stand", 1}, Synonym{"mid stance", 2}, Synonym{"break over", 3},
                                         Synonym{"heel off", 3}};

inline constexpr std::array kModel = {"axisymmetric"sv, "sagittal"sv};
inline constexpr std::array kModelToo = {Synonym{"side view", 1}};

inline constexpr std::array kUncertain = {"measurements"sv, "unmeasured foot"sv, "tissues"sv, "shoeing"sv, "loads"sv};
inline constexpr std::array kUncertainToo = {Synonym{"measurement", 0}, Synonym{"materials", 2}, Synonym{"load", 4}};

inline constexpr std::array kBone = {"rigid"sv, "elastic"sv};

}  // namespace hoofload::scenarios::words
