#pragma once

#include <memory>
#include <string>
#include <string_view>

#include "core/base/result.h"

namespace rodway {

/// A file that appears under its name whole and on the disk, or not at all. It is written under a
/// temporary name in the folder of the target, which goes away unless `commit` succeeds.
/// Paths are UTF-8. Errors: cannot_write, `field` the path, `value` a token: no_folder,
/// no_permission, read_only, disk_full, name_too_long, exists or other.
class DurableFile {
  public:
    static Result<DurableFile> begin(const std::string& folder);

    DurableFile(DurableFile&& other) noexcept;
    DurableFile& operator=(DurableFile&&) = delete;
    DurableFile(const DurableFile&) = delete;
    DurableFile& operator=(const DurableFile&) = delete;
    ~DurableFile();

    Result<Done> write(std::string_view bytes);

    /// Brings the bytes to the disk, then the name. `target` lies in the folder given to `begin` or
    /// in one below it on the same disk; a file that stands there is replaced.
    Result<Done> commit(const std::string& target);

  private:
    struct State;
    explicit DurableFile(std::unique_ptr<State> state);
    std::unique_ptr<State> state_;
};

/// Writes the whole of `path`, replacing what stands there. A link is followed, not replaced.
Result<Done> write_durably(const std::string& path, std::string_view bytes);

/// Gives a file, whose content is on the disk, another name in the same folder and waits until that
/// is on the disk too. What stands at `to` is never replaced: cannot_write, "exists". Unlike Qt's
/// rename it never makes a copy, which nobody would have waited for.
Result<Done> rename_to_free_name(const std::string& from, const std::string& to);

/// Gives `from`, whose content has reached the disk, the name `to` in a folder of the same disk,
/// and waits for the name. What stands under `to` is replaced in one step.
Result<Done> replace_durably(const std::string& from, const std::string& to);

/// Makes the folder `name` in `parent`, on the disk when it returns; one that is there is as good.
Result<Done> make_folder_durably(const std::string& parent, const std::string& name);

/// A token for the file that stands at `path` itself, whatever its name: the same as long as it is
/// the same file, another for one put in its place. Errors: cannot_read, `value` "gone".
Result<std::string> file_identity(const std::string& path);

/// Waits until the content of the file `path` has reached the disk.
Result<Done> sync_file(const std::string& path);

/// Waits until the names in `folder` have reached the disk.
Result<Done> sync_folder(const std::string& folder);

} // namespace rodway
