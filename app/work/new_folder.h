#pragma once

#include <QDir>
#include <QString>
#include <string>
#include <string_view>

#include "core/base/result.h"

namespace rodway {

/// A new folder under a temporary name beside its target, which goes away unless it is kept. In it
/// a folder of photos. It is there under its name only when it is whole and on the disk, and never
/// replaces anything.
class NewFolder {
  public:
    NewFolder(const QString& target, std::string photos_name);
    NewFolder(const NewFolder&) = delete;
    NewFolder& operator=(const NewFolder&) = delete;
    ~NewFolder();

    /// Errors: cannot_write, `field` the target, `value` "exists" if something stands there, or as
    /// `DurableFile` says.
    Result<Done> make();
    /// `name` within the folder. Errors: as `write_durably`.
    Result<Done> write(std::string_view name, std::string_view bytes);
    /// A photo, if it still is what its digest says. Errors: as `read_file`, `write_durably`;
    /// wrong_type, `field` the source, `value` and `expected` the digests.
    Result<Done> copy_photo(const std::string& source, const std::string& name,
                            const std::string& digest);
    /// Gives it its name; returns the whole path. Errors: as `rename_to_free_name`.
    Result<QString> keep();
    /// Where `name` lies now.
    [[nodiscard]] std::string path(std::string_view name) const;

  private:
    QString target_;
    QDir parent_;
    QString temporary_;
    std::string photos_name_;
    bool kept_ = false;
};

} // namespace rodway
