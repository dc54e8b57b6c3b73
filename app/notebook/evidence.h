// Evidence before it is gone: what photos of a part must show before its surface is blasted,
// stripped or plated off, and what of it is still missing.
//
// A photo counts by its tie and by the user's word. By its tie: one tied to the part as found, or
// before and not taken after the part was stripped, shows its original finish and one side; one a
// mark of the part was read from shows its marks. Which photo shows the other side, and what there
// is nothing to show of ("cast without marks"), only the user can say.
#pragma once

#include "notebook/notebook.h"
#include "notebook/words.h"

#include <string>
#include <vector>

namespace fettle {

struct EvidenceLine {
    Evidence shows = Evidence::original_finish;
    std::vector<PhotoId> photos; // that show it
    std::vector<PhotoId> said;   // of these, by the user's word
    std::string none_because;    // the user's words why there is nothing to show; may be empty
    std::string todo;            // what is still to be done, empty when nothing: "photograph ..."
};

// One line for each kind of evidence, in their order.
Result<std::vector<EvidenceLine>> evidence_of(const Notebook& notebook, PartId part);
// The short list of what to photograph or to say, in words; empty when all is kept.
Result<std::vector<std::string>> evidence_missing(const Notebook& notebook, PartId part);
// The same inside an act or a reading.
std::vector<std::string> evidence_missing_within(store::Database& database, PartId part);

// Says that the photo shows it; a photo not tied to the part is tied, before.
Done note_evidence(Notebook& notebook, PartId part, PhotoId photo, Evidence shows);
Done drop_evidence(Notebook& notebook, PartId part, PhotoId photo, Evidence shows);
// Says that there is nothing to show, and why; the words may not be blank.
Done note_no_evidence(Notebook& notebook, PartId part, Evidence shows, const std::string& because);
Done drop_no_evidence(Notebook& notebook, PartId part, Evidence shows);

} // namespace fettle
