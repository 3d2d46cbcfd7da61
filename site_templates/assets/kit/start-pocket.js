/* The pocket page needs none of this. */
startTicks();
startOrders();
startTables();
