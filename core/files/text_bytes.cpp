#include "core/files/text_bytes.h"

#include <algorithm>

namespace rodway {
namespace {

/// Length of a well-formed UTF-8 sequence at the start of `bytes`, or 0.
std::size_t sequence_length(std::string_view bytes) {
    const auto byte = [&](std::size_t at) { return static_cast<unsigned char>(bytes[at]); };
    const unsigned char lead = byte(0);
    const std::size_t length = lead < 0x80                    ? 1
                               : lead >= 0xC2 && lead < 0xE0  ? 2
                               : lead >= 0xE0 && lead < 0xF0  ? 3
                               : lead >= 0xF0 && lead <= 0xF4 ? 4
                                                              : 0;
    if (length == 0 || length > bytes.size()) {
        return 0;
    }
    for (std::size_t at = 1; at < length; ++at) {
        if ((byte(at) & 0xC0) != 0x80) {
            return 0;
        }
    }
    const bool overlong = (lead == 0xE0 && byte(1) < 0xA0) || (lead == 0xF0 && byte(1) < 0x90);
    const bool beyond = (lead == 0xED && byte(1) >= 0xA0) || (lead == 0xF4 && byte(1) >= 0x90);
    return overlong || beyond ? 0 : length;
}

} // namespace

Result<std::string> utf8_text(std::string_view bytes) {
    Error error{ErrorCode::not_utf8, {}, {}, {}, {}, {}};
    if (bytes.empty()) {
        error.code = ErrorCode::empty_file;
        return error;
    }
    if (bytes.substr(0, 2) == "\xFF\xFE" || bytes.substr(0, 2) == "\xFE\xFF") {
        error.expected = "utf-16";
        return error;
    }
    if (bytes.substr(0, 3) == "\xEF\xBB\xBF") {
        bytes.remove_prefix(3);
    }
    if (const auto zero = bytes.find('\0'); zero != std::string_view::npos) {
        // Plain letters with zeros between them are UTF-16 without its mark.
        const auto zeros = static_cast<std::size_t>(std::count(bytes.begin(), bytes.end(), '\0'));
        error.expected = zeros * 3 > bytes.size() ? "utf-16" : "binary";
        error.line = line_of(bytes, zero);
        return error;
    }
    for (std::size_t at = 0; at < bytes.size();) {
        const std::size_t length = sequence_length(bytes.substr(at));
        if (length == 0) {
            error.expected = "other";
            error.line = line_of(bytes, at);
            return error;
        }
        at += length;
    }
    return std::string(bytes);
}

int line_of(std::string_view text, std::size_t offset) {
    const auto end = text.begin() + static_cast<long>(std::min(offset, text.size()));
    return 1 + static_cast<int>(std::count(text.begin(), end, '\n'));
}

} // namespace rodway
