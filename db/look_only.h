#pragma once

namespace rodway {

/// Why a shop file is open to be looked at only.
struct LookOnly {
    enum class Reason {
        disk,   ///< the disk is read-only
        folder, ///< the folder of the file may not be written by this user
        file    ///< the file may not
    };
    Reason reason = Reason::file;
    /// Whether what others change meanwhile is seen. If not, all is as it was at the opening.
    bool follows = false;
};

} // namespace rodway
