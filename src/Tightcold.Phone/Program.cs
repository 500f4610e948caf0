// The phone's own host. Everything begins with a call from desk.js, the worker that runs this.
return;
