// The conversation between Decoder and the worker, as JSON: questions, looks, failures.
//
// A question's frame carries the file's path as its blob, since file names need not be UTF-8,
// and for a cut hands over the open file for the tiles; an answer's blob is the thumbnail or the
// pixels. Answers come from a process that reads foreign bytes, so whatever arrives is checked as
// if a stranger had sent it.
#pragma once

#include "base/process.h"
#include "base/result.h"
#include "photos/decoder.h"
#include "photos/look.h"
#include "photos/picture.h"

#include <string>
#include <string_view>

namespace fettle::photos {

struct Question {
    enum class Kind {
        hash,
        look,
        picture,
        region,
        sidecar,
        packet,
        without_place,
        cut,
        copy
    } kind = Kind::look;
    int longest_side = 0;
    Region region;
    std::string body; // of a question about sidecars (sidecar_wire.h)
};

std::string to_text(const Question& question);
Result<Question> question_from(std::string_view text);

Frame answer_frame(const Failure& failure);
Frame answer_frame(const std::string& hash);
Frame answer_frame(Look look);
Frame answer_frame(Picture picture);
Frame answer_frame(Size size);
Frame answer_frame(JpegCopy copy);

// The answer in the frame, or the Failure it carries; kind plugin when it is neither.
Result<std::string> hash_from(Frame frame);
Result<Look> look_from(Frame frame);
Result<Picture> picture_from(Frame frame);
Result<Size> size_from(Frame frame);
Result<JpegCopy> copy_from(Frame frame);

} // namespace fettle::photos
