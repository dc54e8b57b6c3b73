// What there is to choose from while typing: makers, contacts, positions, parts, open tasks of the
// notebook.
#pragma once

#include "notebook/notebook.h"
#include "ui/widgets/find_as_you_type.h"

#include <vector>

namespace fettle::ui {

Result<std::vector<Candidate>> maker_candidates(const Notebook& book);
Result<std::vector<Candidate>> contact_candidates(const Notebook& book);
Result<std::vector<Candidate>> position_candidates(const Notebook& book); // number, name, group
Result<std::vector<Candidate>> part_candidates(const Notebook& book);
Result<std::vector<Candidate>> open_task_candidates(const Notebook& book);
Result<std::vector<Candidate>> consignment_candidates(const Notebook& book); // firm, purpose

// The candidate with that id, or nullptr.
const Candidate* candidate_with(const std::vector<Candidate>& candidates, std::int64_t id);

} // namespace fettle::ui
