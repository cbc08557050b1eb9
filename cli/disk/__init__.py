"""What is read from disk and written there: files and folders whole or not at all, a photograph made fit for print."""
