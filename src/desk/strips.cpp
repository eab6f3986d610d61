// One widget a strip; nothing is kept of one that is taken away.
#include "desk/strips.h"

#include <QHBoxLayout>
#include <QLabel>
#include <QPushButton>
#include <QVBoxLayout>

namespace kerfdraft::desk {
namespace {

constexpr int kPasses_ms = 8000;
const QString& passing() {
  static const QString kKey = QStringLiteral("passing");
  return kKey;
}

}  // namespace

Strips::Strips(QWidget* parent) : QWidget(parent) {
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(1);
  passes_.setSingleShot(true);
  connect(&passes_, &QTimer::timeout, this, [this] { take(passing()); });
}

void Strips::put(const QString& key, const QString& sentence, const std::vector<Button>& buttons) {
  take(key);
  auto* strip = new QWidget(this);
  strip->setAutoFillBackground(true);
  strip->setBackgroundRole(QPalette::ToolTipBase);
  auto* row = new QHBoxLayout(strip);
  row->setContentsMargins(8, 4, 8, 4);
  auto* words = new QLabel(sentence, strip);
  words->setWordWrap(true);
  words->setForegroundRole(QPalette::ToolTipText);
  words->setTextInteractionFlags(Qt::TextSelectableByMouse);
  row->addWidget(words, 1);
  for (const auto& [name, act] : buttons) {
    auto* button = new QPushButton(name, strip);
    row->addWidget(button);
    connect(button, &QPushButton::clicked, this, [this, key, act = act] {
      take(key);
      act();
    });
  }
  layout()->addWidget(strip);
  strips_[key] = strip;
}

void Strips::take(const QString& key) {
  const auto at = strips_.find(key);
  if (at != strips_.end()) {
    // A button of the strip may be what takes it away.
    at->second->hide();
    at->second->deleteLater();
    strips_.erase(at);
  }
}

void Strips::pass(const QString& sentence) {
  put(passing(), sentence);
  passes_.start(kPasses_ms);
}

QString Strips::text() const {
  QStringList lines;
  for (const auto& [key, strip] : strips_) {
    lines << strip->findChild<QLabel*>()->text();
  }
  return lines.join(QStringLiteral("\n"));
}

bool Strips::press(const QString& key, const QString& button) {
  const auto at = strips_.find(key);
  if (at == strips_.end()) {
    return false;
  }
  for (QPushButton* each : at->second->findChildren<QPushButton*>()) {
    if (each->text() == button) {
      each->click();
      return true;
    }
  }
  return false;
}

}  // namespace kerfdraft::desk
