#pragma once

#include <QDialog>
#include <functional>
#include <vector>

#include "app/widgets/typed_form.h"
#include "core/base/result.h"
#include "core/build/records.h"

namespace rodway {

/// Asks for all that is known of a part. It closes only when the part was kept, so that nothing
/// typed is lost.
class PartDialog : public QDialog {
    Q_OBJECT

  public:
    /// Keeps a part as it is checked. `today`: ISO day of the shop's calendar.
    using Keep = std::function<Result<Done>(const PartRecord&)>;
    PartDialog(const PartRecord& part, const std::vector<Step>& steps, std::string today, Keep keep,
               QWidget* parent = nullptr);

    /// The part with what stands in the boxes. Errors: as `checked_part` and `parse_count`.
    [[nodiscard]] Result<PartRecord> part() const;
    [[nodiscard]] TypedForm& form() { return *form_; }

    void accept() override;

  private:
    void make_part_column(const std::vector<Step>& steps);
    void make_days_column();
    void make_fastener_column();
    void show_part();

    PartRecord before_;
    std::string today_;
    Keep keep_;
    TypedForm* form_;
};

} // namespace rodway
