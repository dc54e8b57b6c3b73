// What was measured on a part: each feature with its verdict and figures, over the places and over
// the days; and the form in which readings are typed and judged as one types. UI thread only.
#pragma once

#include "desk/measuring.h"
#include "notebook/parts.h"
#include "ui/beside/snapshot.h"
#include "ui/context.h"
#include "ui/worked/sheet_form.h"

#include <map>
#include <memory>
#include <optional>
#include <string>
#include <vector>

namespace fettle::ui {

// A feature with its texts made once.
struct ShownFeature {
    desk::MeasuredFeature of;
    std::optional<ShownAnswer> newest;
    std::optional<calc::AnsweredChart> over_time;
};

// What a person is in the middle of.
struct PartMeasuring {
    bool open = false;   // the form
    bool begins = false; // the caret goes to its first field
    std::string feature; // as typed
    std::string begun_for;
    std::string day; // as typed; blank: today
    std::string remark;
    calc::TypedInputs typed;
    SheetForm form;
    std::string trouble;
    std::shared_ptr<Coming<Result<desk::Measured>>> keeping =
        std::make_shared<Coming<Result<desk::Measured>>>();
    std::map<std::string, bool> unfolded; // by feature
    Snapshot<std::vector<ShownFeature>, std::int64_t> features;
};

// The section of the part's page; its button and a key open the form.
void draw_measurements(Page& page, Context& context, const Part& part, PartMeasuring& state);

// The form in place of the page. Kept or left, it closes.
void draw_measuring(Page& page, Context& context, SideWork& work, const Part& part,
                    PartMeasuring& state);

void begin_measuring(Context& context, PartMeasuring& state, const ShownFeature* known);

} // namespace fettle::ui
