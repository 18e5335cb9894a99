import "@fontsource/libertinus-serif/latin-400.css";
import "@fontsource/libertinus-serif/latin-400-italic.css";
import "@fontsource/libertinus-serif/latin-600.css";
import "./style/paper.css";
import "./style/blank.css";
import "./style/page.css";
import "./style/print.css";
import { mount } from "svelte";
import App from "./App.svelte";
import { store } from "./store.svelte";

const place = document.getElementById("app");
if (place) {
  mount(App, { target: place });
  store.start();
}
