// Parts of photos seen through filters, made on a thread beside the window from the tiles a photo
// has been cut into. Knows no texture. UI thread only; of several parts wanted in one slot the last
// one counts.
#pragma once

#include "notebook/marks.h"
#include "photos/stamp_filters.h"
#include "photos/tile_file.h"
#include "ui/beside/side_work.h"

#include <functional>
#include <map>
#include <memory>
#include <string>
#include <vector>

namespace fettle::ui {

class FilteredParts {
  public:
    explicit FilteredParts(std::function<void()> wake) : work_(std::move(wake)) {}

    struct Wanted {
        photos::TileFile tiles;
        std::string hash; // of the photo
        int level = 0;    // seen at 1/2^level of the picture's pixels
        Region region;    // of the picture; what the filters see around it is made with it
        photos::StampFilters filters;
    };
    void want(const std::string& slot, const Wanted& wanted);

    struct Come {
        std::string slot, hash;
        Region region; // what the picture shows; may reach beyond the photo by less than a sample
        photos::Picture picture;
    };
    std::vector<Come> take();
    // What came has been lost: it is made anew when it is wanted next.
    void forget(const std::string& slot) { slots_.erase(slot); }
    // For tests: waits until nothing is being made.
    void settle() { work_.settle(); }

  private:
    using Bright = std::shared_ptr<const photos::Brightness>;
    struct Made {
        std::string hash;
        Region region;
        photos::Picture picture;
        std::string cut; // what `bright` was read for
        Bright bright;   // before the filters, for the next ones
    };
    struct Slot {
        std::string asked, cut;
        Bright bright;
        std::shared_ptr<Coming<Made>> coming = std::make_shared<Coming<Made>>();
    };
    std::map<std::string, Slot, std::less<>> slots_;
    SideWork work_; // last: its thread ends before the rest goes
};

} // namespace fettle::ui
