// The head of one consignment, new or changed: to whom, what for, whether the work takes the old
// surface off, carrier, value and days. What is wrong stands beside its field.
#pragma once

#include "notebook/consignments.h"
#include "ui/beside/snapshot.h"
#include "ui/context.h"
#include "ui/frame/page.h"
#include "ui/widgets/find_as_you_type.h"

#include <string>
#include <vector>

namespace fettle::ui {

// What a person is in the middle of.
struct ConsignmentForm {
    Consignment head; // as it was, or a new one; the fields below stand over it
    FindLine firm;
    std::string value, sent, due;
    std::string firm_error, purpose_error, value_error, sent_error, due_error;
    bool take_focus = true;
    Snapshot<std::vector<Candidate>> firms;
};

ConsignmentForm form_of(const Consignment& head);

enum class HeadEnd { goes_on, kept, left };
// `head.id` is that of the consignment once it is kept.
HeadEnd draw_consignment_form(Page& page, Context& context, ConsignmentForm& form);

} // namespace fettle::ui
