"""The signal strip: the only place that imports pyqtgraph. Imported after the first paint."""
