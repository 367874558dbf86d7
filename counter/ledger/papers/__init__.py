"""Papers: the stock book, invoices and quotes as text, as files, and as pages to print."""
