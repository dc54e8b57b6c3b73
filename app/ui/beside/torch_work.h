// The long work of a torch set beside the window: working out its relief, drawing a view of it,
// keeping that with a mark, comparing two. One at a time, with progress and a stop; views are drawn
// as they are asked for, the last one counts. UI thread only; destroying it stops all.
#pragma once

#include "desk/torch_marks.h"
#include "relief/compare.h"
#include "ui/beside/job.h"
#include "ui/beside/side_work.h"

#include <functional>
#include <memory>
#include <mutex>
#include <optional>

namespace fettle::ui {

struct TorchAsk {
    desk::TorchRecipe recipe;
    bool seek_ball = false; // instead of the recipe's
};

struct TorchDone {
    desk::TorchRecipe recipe; // with the ball that was found
    std::shared_ptr<const relief::Relief> relief;
    // The same no larger than a screen, of 1 / by of the pixels, so that it follows the pointer.
    std::shared_ptr<const relief::Relief> small;
    int by = 1;
    std::optional<double> millimetres; // a pixel of the relief
};

// A view drawn of `small`; its scale in pixels of the relief.
struct TorchDrawn {
    relief::View view;
    relief::Seen seen;
};

struct TorchCompared {
    relief::Alike alike;
    relief::GreyPicture one, other; // the other as it lies on the one; of one size
};

class TorchWork {
  public:
    explicit TorchWork(const std::function<void()>& wake);

    // Nothing happens while one of these is running.
    void work_out(const Notebook& book, const TorchAsk& ask);
    // Photos are taken in while `taking_in` is held.
    void keep(Notebook& book, const std::shared_ptr<std::mutex>& taking_in, const TorchDone& done,
              const relief::View& view, const Mark& mark);
    void compare(const Notebook& book, const desk::TorchRecipe& one,
                 const desk::TorchRecipe& other);
    void draw(const TorchDone& done, const relief::View& view);

    bool running() const;
    std::string doing() const;
    double share() const;
    void stop();
    // Once a frame.
    std::optional<Result<TorchDone>> take_done() { return working_.take_finished(); }
    std::optional<Result<desk::TorchKept>> take_kept() { return keeping_.take_finished(); }
    std::optional<Result<TorchCompared>> take_compared() { return comparing_.take_finished(); }
    std::optional<TorchDrawn> take_drawn() { return drawn_->take(); }

    void settle() { side_.settle(); } // for tests: until the views asked for are drawn

  private:
    Job<Result<TorchDone>> working_;
    Job<Result<desk::TorchKept>> keeping_;
    Job<Result<TorchCompared>> comparing_;
    std::shared_ptr<Coming<TorchDrawn>> drawn_ = std::make_shared<Coming<TorchDrawn>>();
    SideWork side_;
};

} // namespace fettle::ui
