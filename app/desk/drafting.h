// From the draft as typed to the entry as written, and back for changing one.
#pragma once

#include "calc/catalogue.h"
#include "notebook/drafts.h"

namespace fettle::desk {

// Reads the draft's date and hours, calculates its sheets, writes the entry and drops the draft.
// Sheets of a changed entry whose inputs were not touched keep their result as it was. Where a
// plugin fails the calculation is kept as failed, to be run again. Fails with
// the sentence of the first thing that does not read; then nothing is written and the draft stays.
Result<EntryId> write_draft(Notebook& notebook, calc::Catalogue& sheets, const EntryDraft& draft);

// The draft that changes an entry: text, ties and sheets as they were typed.
Result<EntryDraft> draft_of(const Notebook& notebook, EntryId entry);

// Hours as people type them: 2, 1.5, 1 1/2, 90 min, 1:30. Blank gives none.
Result<std::optional<double>> parse_hours(const std::string& text);

} // namespace fettle::desk
