// Tables of the adviser's paper. Private to this room.
#pragma once

#include "papers/document.h"
#include "papers/paper_input.h"

namespace kerfdraft::papers {

/// Who the shop is, the air of the day, how it was reckoned.
Table circumstances(const PaperInput& input);

/// Every state and every open machine: flow, band, need, chance, slowest run.
Table statesTable(const PaperInput& input);

/// Flow of a fan in each state, filter clean and due beside it, and its rise.
Table operatingTable(const PaperInput& input, std::size_t fan);

/// The greatest losses of a path, with their share.
Table lossTable(const judge::Sheet& sheet);

/// What can be done, with gain, price and risk: remedies that were tried by solving.
Table optionsTable(const PaperInput& input);

}  // namespace kerfdraft::papers
