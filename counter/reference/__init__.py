"""The facts: data files, frozen typed records and the one loader that checks them."""
