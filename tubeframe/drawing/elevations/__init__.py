"""Front, right side and plan, on one sheet or one by one."""
