#pragma once

#include <QWidget>
#include <optional>

#include "app/edit_stack/shop_session.h"
#include "core/build/records.h"

class QListWidget;
class QPushButton;

namespace rodway {

/// The photos of one part, and a button that adds some.
class PartPhotos : public QWidget {
    Q_OBJECT

  public:
    explicit PartPhotos(QWidget* parent = nullptr);

    /// Without a part there is nothing to show or add to.
    void take(ShopSession* session, const std::optional<PartRecord>& part);
    void add(const QStringList& files);

  signals:
    void failed(const QString& text);

  private:
    void show_photos();

    ShopSession* session_ = nullptr;
    std::optional<PartRecord> part_;
    QListWidget* list_;
    QPushButton* add_;
};

} // namespace rodway
