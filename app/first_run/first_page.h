#pragma once

#include <QWidget>

namespace rodway {

/// What the window shows before any shop file is open: what one is, and three ways to begin.
class FirstPage : public QWidget {
    Q_OBJECT

  public:
    explicit FirstPage(QWidget* parent = nullptr);

  signals:
    void open_wanted();
    /// A new shop file is wanted; `demo`: one with invented builds in it.
    void new_wanted(bool demo);
};

} // namespace rodway
