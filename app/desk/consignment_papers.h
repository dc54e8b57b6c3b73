// What goes with a consignment on paper: the packing list with a photo of each part, and the claim
// pack for what was lost on the way. A4, from the notebook as it stands; photos are drawn anew from
// their pixels, so nothing else of their files (place, camera) goes along.
#pragma once

#include "notebook/consignments.h"

#include <filesystem>

namespace fettle::desk {

enum class ConsignmentPaper { packing_list, claim_pack };

// Both give the number of pages; fail with not_found, refused (nothing is on it) and io. A photo
// that cannot be read leaves its frame empty, with its number.
Result<int> write_packing_list(const Notebook& notebook, ConsignmentId id,
                               const std::filesystem::path& file);
Result<int> write_claim_pack(const Notebook& notebook, ConsignmentId id,
                             const std::filesystem::path& file);
Result<int> write_paper(const Notebook& notebook, ConsignmentId id, ConsignmentPaper kind,
                        const std::filesystem::path& file);

// "papers/consignment-3-packing-list.pdf" in the notebook's folder: where the window writes it.
std::filesystem::path place_of_paper(const Notebook& notebook, ConsignmentId id,
                                     ConsignmentPaper kind);

// What is declared, by currency: of the whole where that was said, else the items' sum; blank when
// nothing was. `missing_only`: of what is missing, each item's value in proportion to its pieces.
std::string declared_words(const Consignment& consignment);
std::string missing_value_words(const Consignment& consignment);

} // namespace fettle::desk
