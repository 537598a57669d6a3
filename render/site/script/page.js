// What a page does once it is there. Each part looks for what it serves and
// does nothing on other pages.
offerChoices();
markToday(document);
offerFilters();
offerPanels();
offerCopies();
offerLookup();
