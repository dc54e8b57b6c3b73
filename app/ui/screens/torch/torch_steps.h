// The steps of a torch set, each of which fills the screen (torch.h).
#pragma once

#include "ui/screens/torch/torch.h"

namespace fettle::ui {

void draw_torch_choice(Page& page, Context& context, TorchState& state);
void draw_torch_set_up(Page& page, Context& context, TorchState& state);
void draw_torch_seen(Page& page, Context& context, TorchState& state);
void draw_torch_others(Page& page, Context& context, TorchState& state);
void draw_torch_compared(Page& page, Context& context, TorchState& state);
// How a set is taken; leaves by Esc or H.
void draw_torch_help(Page& page, TorchState& state);

// Looks at these from here on.
void set_up_torch(TorchState& state, std::vector<Photo> photos);
void see_torch(TorchState& state, TorchDone done);

// "how to take a set", by H; and one step back, by Esc.
void torch_help_act(Page& page, Flow& flow, TorchState& state);
bool torch_back_act(Page& page, Flow& flow, std::string_view label);

// Where the picture goes above a strip of so much height, before scaling.
Rect torch_area(const Page& page, float strip);
// A grey picture as a texture.
Texture grey_texture(Surface surface, const relief::GreyPicture& picture);

} // namespace fettle::ui
